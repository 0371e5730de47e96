import { useEffect } from 'react';

const redraws = new Set<() => void>();

/** Calls `redraw` whenever an overlay is mounted that was loaded late. Returns a function that ends it. */
export function onOverlayMounted(redraw: () => void): () => void {
  redraws.add(redraw);
  return () => void redraws.delete(redraw);
}

/** For an overlay that is loaded when it is first used: the frame that its opening causes may be drawn before it is there. */
export function useDrawnWhenMounted(): void {
  useEffect(() => {
    for (const redraw of redraws) redraw();
  }, []);
}
