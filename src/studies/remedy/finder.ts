import type { Design } from '../../design/design.ts';
import { yieldToOthers } from '../../executors/yieldToOthers.ts';
import type { Rate } from '../sensitivity/rate.ts';
import type { StudiedInput } from '../sensitivity/studiedInputs.ts';
import { type PairTrial, pairFits } from '../vary/pairTrial.ts';
import type { Trials } from '../vary/trials.ts';
import { type Change, changeTo, withChanges } from './changedFile.ts';
import { type Choices, choicesOf, stepAtLeast } from './choices.ts';
import { leastStep, type Tried } from './leastStep.ts';
import type { Reason, Verified, Verifier } from './verify.ts';

/** A verified change that clears a pair; the step before it does not. */
export interface Remedy extends Verified {
  /** One change, or two. */
  changes: readonly Change[];
}

/** A change that is not proposed, with the reasons. */
export interface Refused {
  changes: readonly Change[];
  reasons: readonly Reason[];
}

/** Number of values that are combined with each other, and of combinations that are tried. */
const MOST_COMBINED = 4;
const MOST_COMBINATIONS = 3;

/** A value that gains clearance in one direction. */
interface Candidate {
  choices: Choices;
  /** Clearance gained per mm or degree, with its error bound. */
  gain: number;
  error: number;
}

/** Steps of a change, from 1 to `most`, with the clearance gained per step, as the slopes predict, mm. */
interface Route {
  most: number;
  first: number;
  gainMm: number;
  changesAt(step: number): Change[];
}

interface TriedChange extends Tried {
  changes: readonly Change[];
  reasons: readonly Reason[];
}

/** Distance from the value in the file to the last choice. */
const rangeOf = ({ amounts, from }: Choices): number => Math.abs(amounts[amounts.length - 1] - from);

/** The largest gain that the slope's error leaves possible within the range, mm. */
const mostGainMm = ({ choices, gain, error }: Candidate): number => (gain + error) * rangeOf(choices);

/**
 * The gain in a direction, if it is more than its error: from the slope on that side or on both, whichever leaves more.
 * The error on both sides also covers their difference; that on one side is of half the step.
 */
function gainOf(
  { both, below, above }: Rate,
  direction: 1 | -1,
): Pick<Candidate, 'gain' | 'error'> | undefined {
  const [best] = [both, direction > 0 ? above : below]
    .filter((slope) => slope !== undefined)
    .map(({ perUnit, error }) => ({ gain: direction * perUnit, error }))
    .sort((one, other) => other.gain - other.error - (one.gain - one.error));
  return best !== undefined && best.gain > best.error ? best : undefined;
}

/** The values that gain more clearance than the error of their slope, each in its direction. */
function candidatesOf(design: Design, rates: readonly (readonly [StudiedInput, Rate])[]): Candidate[] {
  return rates.flatMap(([input, rate]) =>
    ([1, -1] as const).flatMap((direction): Candidate[] => {
      const gained = gainOf(rate, direction);
      if (gained === undefined) return [];
      const choices = choicesOf(design, input, direction);
      return choices.amounts.length === 0 ? [] : [{ choices, ...gained }];
    }),
  );
}

export interface FinderOptions {
  signal?: AbortSignal | undefined;
  /** Called with the number of changes to try when they are known. */
  onChosen?: (count: number) => void;
  /** Called when one of them is done. */
  onDone?: () => void;
}

/** Finds the remedies of the pairs of one corner. */
export class Finder {
  private readonly design: Design;
  private readonly trials: Trials;
  private readonly verifier: Verifier;
  private readonly options: FinderOptions;

  /** `design`: the corner of `trials`. */
  constructor(design: Design, trials: Trials, verifier: Verifier, options: FinderOptions) {
    this.design = design;
    this.trials = trials;
    this.verifier = verifier;
    this.options = options;
  }

  /**
   * The remedies of a pair that does not clear, unranked. `id`: that of the pair. `rates`: of the free values that change
   * it. Two values are combined only if no single one gives a remedy.
   */
  async find(
    id: string,
    before: PairTrial,
    rates: readonly (readonly [StudiedInput, Rate])[],
  ): Promise<{ remedies: Remedy[]; refused: Refused[] }> {
    const needMm = -before.leastMarginMm;
    const candidates = candidatesOf(this.design, rates);
    const singles = candidates.filter((candidate) => mostGainMm(candidate) >= needMm);
    const found = await this.follow(
      singles.map((candidate) => this.single(candidate, needMm)),
      id,
      before,
    );
    if (found.remedies.length > 0) return found;
    const two = await this.follow(this.combinations(candidates, needMm), id, before);
    return { remedies: two.remedies, refused: [...found.refused, ...two.refused] };
  }

  /**
   * As `find`, for a pair without slopes, because the depth of its overlap is not known: each value is tried at the end of
   * its range first. Ranges that end where nothing can be built are left out, as most do not concern the pair.
   */
  async findWithoutSlopes(
    id: string,
    before: PairTrial,
    inputs: readonly StudiedInput[],
  ): Promise<{ remedies: Remedy[]; refused: Refused[] }> {
    const routes = inputs.flatMap((input) =>
      ([1, -1] as const).flatMap((direction): Route[] => {
        const choices = choicesOf(this.design, input, direction);
        const most = choices.amounts.length;
        return most === 0
          ? []
          : [
              {
                most,
                first: most,
                gainMm: Number.NaN,
                changesAt: (step) => [changeTo(this.design, choices, step)],
              },
            ];
      }),
    );
    const { remedies, refused } = await this.follow(routes, id, before);
    return {
      remedies,
      refused: refused.filter(({ reasons }) => reasons.every(({ kind }) => kind !== 'notBuilt')),
    };
  }

  private single({ choices, gain }: Candidate, needMm: number): Route {
    return {
      most: choices.amounts.length,
      first: stepAtLeast(choices, needMm / gain),
      gainMm: gain * choices.step,
      changesAt: (step) => [changeTo(this.design, choices, step)],
    };
  }

  /** Two values change together, each by the same share of its range. */
  private combinations(candidates: readonly Candidate[], needMm: number): Route[] {
    const largest = [...candidates]
      .sort((one, other) => mostGainMm(other) - mostGainMm(one))
      .slice(0, MOST_COMBINED);
    const combined = largest.flatMap((one, k) =>
      largest
        .slice(k + 1)
        .filter(
          (other) =>
            other.choices.input !== one.choices.input && mostGainMm(one) + mostGainMm(other) >= needMm,
        )
        .map((other) => [one, other] as const),
    );
    return combined.slice(0, MOST_COMBINATIONS).map((two) => {
      const most = Math.max(...two.map(({ choices }) => choices.amounts.length));
      const gainMm = two.reduce((sum, { choices, gain }) => sum + gain * rangeOf(choices), 0) / most;
      return {
        most,
        first: Math.ceil(needMm / gainMm),
        gainMm,
        changesAt: (step) =>
          two.map(({ choices }) =>
            changeTo(this.design, choices, Math.ceil((step * choices.amounts.length) / most)),
          ),
      };
    });
  }

  private async follow(
    routes: readonly Route[],
    id: string,
    before: PairTrial,
  ): Promise<{ remedies: Remedy[]; refused: Refused[] }> {
    const remedies: Remedy[] = [];
    const refused: Refused[] = [];
    this.options.onChosen?.(routes.length);
    for (const route of routes) {
      const { found, stopped } = await leastStep(route.most, route.first, (step) =>
        this.tryStep(route, step, id, before),
      );
      if (stopped !== undefined) refused.push({ changes: stopped.changes, reasons: stopped.reasons });
      if (found !== undefined) {
        const { changes } = found;
        const source = withChanges(this.design.source, changes);
        const verified = await this.verifier.verify(source, id, this.options.signal);
        if ('after' in verified) remedies.push({ ...verified, changes });
        else refused.push({ changes, reasons: verified });
      }
      this.options.onDone?.();
    }
    return { remedies, refused };
  }

  private async tryStep(
    { changesAt, gainMm }: Route,
    step: number,
    id: string,
    before: PairTrial,
  ): Promise<TriedChange> {
    await yieldToOthers();
    const changes = changesAt(step);
    const source = withChanges(this.design.source, changes);
    const { problems, trial } = await this.trials.attemptPair(source, id, this.options.signal);
    if (problems.length > 0) return { kind: 'notBuilt', changes, reasons: [{ kind: 'notBuilt', problems }] };
    if (trial === undefined) return { kind: 'short', changes, reasons: [] };
    const gained = (trial.leastMarginMm - before.leastMarginMm) / step;
    const ahead = -trial.leastMarginMm / (gained > 0 ? gained : gainMm);
    return pairFits(trial)
      ? { kind: 'clears', ahead, changes, reasons: [] }
      : { kind: 'short', ahead: Math.max(1, ahead), changes, reasons: [] };
  }
}
