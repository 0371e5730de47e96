import type { StepPicture } from './stepPicture.ts';

/** Rows of a map that is still being swept, from one that is done to the next that is. */
export interface Span {
  from: number;
  to: number;
}

/** The spans between rows that are done, upward; those of neighbours too. None before two rows are done. */
export function doneSpans({ states }: StepPicture, columns: number): Span[] {
  const done = Array.from({ length: states.length / columns }, (_, row) => row).filter(
    (row) => states[row * columns] !== 'pending',
  );
  return done.slice(1).map((to, i) => ({ from: done[i], to }));
}

/** Whether rows that are not swept yet lie within. */
export const isOpen = ({ from, to }: Span): boolean => to - from > 1;
