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
 * to try first. Returns the results of that step and of the last one before it that is short, which is undefined for
 * step 0. `found` is undefined if no tried step clears; `stopped` is then the nearest step that cannot be built.
 */
export async function leastStep<T extends Tried>(
  most: number,
  first: number,
  tryStep: (step: number) => Promise<T>,
): Promise<{ found: T | undefined; before: T | undefined; stopped: T | undefined }> {
  let [short, stop] = [0, most + 1];
  let [before, at]: (T | undefined)[] = [];
  for (let tries = 0, next = first; stop - short > 1; tries++) {
    const step = Math.max(short + 1, Math.min(stop - 1, next));
    const tried = await tryStep(step);
    if (tried.kind === 'short') [short, before] = [step, tried];
    else [stop, at] = [step, tried];
    const { ahead = Number.NaN } = tried;
    const estimate = step + Math.ceil(ahead);
    next = tries < MOST_ESTIMATES && Number.isFinite(estimate) ? estimate : (short + stop) >> 1;
  }
  const found = at?.kind === 'clears' ? at : undefined;
  return { found, before, stopped: found === undefined ? at : undefined };
}
