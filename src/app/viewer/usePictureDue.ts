import { useEffect, useState } from 'react';
import type { OpenCorner } from '../engine.ts';
import { useCorner } from '../stores/cornerStore.ts';

/** The picture waits no longer than this for the map, ms. */
const WAIT_MS = 1400;

/**
 * Whether there is anything to be drawn: the first corner waits until the first rows of its sweep stand on the map. Where
 * pictures are drawn by the processor, they would hold up the rows, and the map with them.
 */
export function usePictureDue(corner: OpenCorner | undefined): boolean {
  const [due, setDue] = useState(false);
  const waiting = corner !== undefined && !due;
  useEffect(() => {
    if (!waiting) return;
    const draw = () => setDue(true);
    let frame = 0;
    const timer = setTimeout(draw, WAIT_MS);
    const stop = useCorner.subscribe(({ swept }) => {
      if (swept === undefined || frame !== 0) return;
      // The map is drawn in this frame, and gone to the screen by the next.
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
