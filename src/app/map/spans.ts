import type { StepPicture } from './stepPicture.ts';

/** Rows of a map from one finished row to the next finished row. */
export interface Span {
  from: number;
  to: number;
}

/** Spans between successive finished rows, upward, including adjacent ones. Empty if fewer than two rows are finished. */
export function doneSpans({ states }: StepPicture, columns: number): Span[] {
  const done = Array.from({ length: states.length / columns }, (_, row) => row).filter(
    (row) => states[row * columns] !== 'pending',
  );
  return done.slice(1).map((to, i) => ({ from: done[i], to }));
}

/** Whether a span contains rows that are not swept yet. */
export const hasPending = ({ from, to }: Span): boolean => to - from > 1;
