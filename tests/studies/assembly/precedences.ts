import type { Fitted, Precedence } from '../../../src/studies/assembly/order.ts';

/** A precedence of one item before another. */
export const comes = (earlier: string, later: string, strict = true): Precedence => ({
  earlier,
  later,
  strict,
  why: `${earlier} before ${later}`,
});

/** Items by their steps. */
export const items = (steps: Record<string, number>): Fitted[] =>
  Object.entries(steps).map(([id, step]) => ({ id, step }));
