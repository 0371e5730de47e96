import { useEffect, useState } from 'react';
import { useCorner } from '../state/cornerStore.ts';
import type { OpenCorner } from '../state/engine.ts';

/** Longest time that the picture waits for the map, ms. */
const MAX_WAIT_MS = 1400;

/**
 * Whether the picture may be drawn. The picture of the first corner waits until the first rows of its sweep are on the map:
 * with software rendering, drawing it would delay the rows and the map.
 */
export function usePictureDue(corner: OpenCorner | undefined): boolean {
  const [due, setDue] = useState(false);
  const waiting = corner !== undefined && !due;
  useEffect(() => {
    if (!waiting) return;
    const draw = () => setDue(true);
    let frame = 0;
    const timer = setTimeout(draw, MAX_WAIT_MS);
    const stop = useCorner.subscribe(({ swept }) => {
      if (swept === undefined || frame !== 0) return;
      // The map is drawn in this frame and is on screen in the next.
      frame = requestAnimationFrame(() => {
        frame = requestAnimationFrame(draw);
      });
    });
    return () => {
      clearTimeout(timer);
      cancelAnimationFrame(frame);
      stop();
    };
  }, [waiting]);
  return !waiting;
}
