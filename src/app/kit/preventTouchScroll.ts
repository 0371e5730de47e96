import { type RefObject, useEffect } from 'react';

/**
 * Prevents scrolling by touch moves on an element that is dragged by touch. Returns a function that removes the listener.
 * Reason: a browser may treat a drag that ends in a flick as a scroll with momentum, even if `touch-action` forbids
 * scrolling. It then uses the next tap to stop that scroll (seen for half a second in Chromium 147). Taps still work.
 */
export function preventTouchScroll(element: HTMLElement): () => void {
  const prevent = (event: TouchEvent) => {
    if (event.cancelable) event.preventDefault();
  };
  // A passive listener cannot prevent the default action.
  element.addEventListener('touchmove', prevent, { passive: false });
  return () => element.removeEventListener('touchmove', prevent);
}

/** Calls `preventTouchScroll` for an element that exists as long as its component. */
export function usePreventTouchScroll(ref: RefObject<HTMLElement | null>): void {
  useEffect(() => (ref.current === null ? undefined : preventTouchScroll(ref.current)), [ref]);
}
