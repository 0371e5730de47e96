/** Result of one step. */
export interface Tried {
  kind: 'clears' | 'short' | 'notBuilt';
  /** Estimated number of steps from here to the border, negative back toward the value; undefined if it is not known. */
  ahead?: number;
}

/** Number of estimates that are followed; after that, the rest is halved. */
const MOST_ESTIMATES = 3;

/**
 * Finds a step that clears while the step before it does not, from 1 to `most`; step 0 does not clear. `first`: the step
 * to try first. `found` is the result of that step, undefined if no tried step clears; `stopped` is then the result of the
 * nearest step that cannot be built, if there is one.
 */
export async function leastStep<T extends Tried>(
  most: number,
  first: number,
  tryStep: (step: number) => Promise<T>,
): Promise<{ found: T | undefined; stopped: T | undefined }> {
  let [short, stop] = [0, most + 1];
  let at: T | undefined;
  for (let tries = 0, next = first; stop - short > 1; tries++) {
    const step = Math.max(short + 1, Math.min(stop - 1, next));
    const tried = await tryStep(step);
    if (tried.kind === 'short') short = step;
    else [stop, at] = [step, tried];
    const { ahead = Number.NaN } = tried;
    const estimate = step + Math.ceil(ahead);
    next = tries < MOST_ESTIMATES && Number.isFinite(estimate) ? estimate : (short + stop) >> 1;
  }
  const found = at?.kind === 'clears' ? at : undefined;
  return { found, stopped: found === undefined ? at : undefined };
}
