import { type RefObject, useEffect } from 'react';

/**
 * Has an element that is dragged by touch keep its touches to itself, and returns what undoes that. Without it a browser
 * may take a drag that ends in a flick for a scroll that runs on, even where `touch-action` lets nothing scroll, and swallow
 * the next tap, wherever it falls, as one that halts it: seen for half a second in Chromium 147. Taps are left alone: they
 * do not move.
 */
export function ownTouches(element: HTMLElement): () => void {
  const own = (event: TouchEvent) => {
    if (event.cancelable) event.preventDefault();
  };
  // Not as a property of the element: those listen in a way that prevents nothing.
  element.addEventListener('touchmove', own, { passive: false });
  return () => element.removeEventListener('touchmove', own);
}

/** The same for an element that is there as long as its component. */
export function useOwnTouches(ref: RefObject<HTMLElement | null>): void {
  useEffect(() => (ref.current === null ? undefined : ownTouches(ref.current)), [ref]);
}
