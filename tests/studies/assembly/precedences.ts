import type { Fitted, Precedence } from '../../../src/studies/assembly/order.ts';

/** That one thing comes before another. */
export const comes = (earlier: string, later: string, strict = true): Precedence => ({
  earlier,
  later,
  strict,
  why: `${earlier} before ${later}`,
});

/** Things by their steps. */
export const things = (steps: Record<string, number>): Fitted[] =>
  Object.entries(steps).map(([id, step]) => ({ id, step }));
