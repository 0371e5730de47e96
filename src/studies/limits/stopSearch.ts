/** Search for the ranges of travel and lock in which nothing fails. */
import type { Findings, PairFinding } from '../../findings/findings.ts';
import { type LimitFinding, limitFindings } from '../../findings/limitFindings.ts';
import { measureLimits } from '../../proof/limits.ts';
import type { SweepResult } from '../../sweep/result.ts';
import type { Setup } from '../../sweep/setUp.ts';
import { type Choices, stepAtLeast } from '../remedy/choices.ts';
import { leastStep, type Tried } from '../remedy/leastStep.ts';
import { type SweepAndProve, withPairs } from '../vary/measurePairs.ts';
import { type Bound, type Headroom, headroomOf, leastHeadroom } from './headroom.ts';
import { type RangeEnd, type Ranges, setupWithin } from './ranges.ts';

/** Whether every margin must be kept, or contact alone is avoided. */
export type StopGoal = 'margins' | 'contact';

/** Whether a pair fails a goal. For contact alone, targets and allowances of the setup are 0. */
export const failsGoal = ({ state }: PairFinding): boolean => state !== 'clear' && state !== 'far';

/** A corner whose pairs need no more than no contact. */
export const withoutTargets = (setup: Setup): Setup => ({
  ...setup,
  pairs: setup.pairs.map((pair) => ({ ...pair, targetMm: 0, allowanceMm: 0 })),
});

interface TriedStep extends Tried {
  step: number;
}

/** Tries ranges of one swept corner. Only what fails over the whole travel and lock is measured again. */
export class StopSearch {
  /** What fails somewhere and not at ride height, straight ahead. */
  readonly headroom: readonly Headroom[];
  /** What fails at ride height, straight ahead: no stop clears it. */
  readonly always: readonly Bound[];
  private readonly setup: Setup;
  private readonly result: SweepResult;
  private readonly least: Float64Array;
  private readonly measure: SweepAndProve;
  private readonly signal: AbortSignal | undefined;
  private readonly onTried: (() => void) | undefined;
  private readonly tried = new Map<string, boolean>();

  /** `result`, `findings`: of the whole travel and lock, limits included. */
  constructor(
    setup: Setup,
    { result, findings }: { result: SweepResult; findings: Findings },
    measure: SweepAndProve,
    signal?: AbortSignal,
    onTried?: () => void,
  ) {
    this.setup = setup;
    this.result = result;
    this.measure = measure;
    this.signal = signal;
    this.onTried = onTried;
    const all = headroomOf(result, findings, failsGoal);
    const ride = result.travelMm.indexOf(0) * result.steer.length + result.steer.indexOf(0);
    this.headroom = all.filter(({ left }) => left[ride] >= 0);
    this.always = all.filter(({ left }) => !(left[ride] >= 0)).map(({ bound }) => bound);
    this.least = leastHeadroom(this.headroom, result.poseState.length);
  }

  /** Whether nothing of `headroom` fails within ranges: swept and proved. */
  async isClear(ranges: Ranges): Promise<boolean> {
    this.signal?.throwIfAborted();
    const key = JSON.stringify([ranges.bump, ranges.droop, ranges.outboard, ranges.inboard]);
    const known = this.tried.get(key);
    if (known !== undefined) return known;
    const clear = await this.measureClear(setupWithin(this.setup, ranges));
    this.tried.set(key, clear);
    this.onTried?.();
    return clear;
  }

  private async measureClear(within: Setup): Promise<boolean> {
    const { design, mechanism, travelMm, steer } = within;
    const { limits, locksOut } = measureLimits(design.corner, mechanism, travelMm, steer);
    const checked = new Set(
      this.headroom.flatMap(({ bound }) => (bound.kind === 'limit' ? [limitKey(bound.limit)] : [])),
    );
    const bindsNone = limitFindings(limits).every(
      (limit) => limit.state === 'clear' || !checked.has(limitKey(limit)),
    );
    if (locksOut || !bindsNone) return false;
    const pairs = this.headroom.flatMap(({ bound }) => (bound.kind === 'pair' ? [bound.pair] : []));
    if (pairs.length === 0) return true;
    const { findings } = await this.measure(withPairs(within, pairs), [], this.signal);
    return !findings.pairs.some(failsGoal);
  }

  /**
   * The least cut of one end, in steps of its choices, with the other ranges as given: the number of the step, swept and
   * proved, of which the one before does not clear. 0 if no cut is needed; undefined if none clears.
   */
  async leastCut(end: RangeEnd, choices: Choices, ranges: Ranges): Promise<number | undefined> {
    if (await this.isClear(ranges)) return 0;
    const most = choices.amounts.length;
    const guess = this.guess(end, ranges);
    const first = stepAtLeast(choices, ranges[end] - guess);
    const { found } = await leastStep<TriedStep>(most, Math.min(most, first), async (step) => {
      const clears = await this.isClear({ ...ranges, [end]: choices.amounts[step - 1] });
      return { step, kind: clears ? 'clears' : 'short', ahead: clears ? -1 : 1 };
    });
    return found?.step;
  }

  /** The largest end at which the interpolated headroom is at least 0 within the other ranges. */
  private guess(end: RangeEnd, ranges: Ranges): number {
    const { travelMm, steer } = this.result;
    const grid = { rows: travelMm.length, columns: steer.length };
    const isTravel = end === 'bump' || end === 'droop';
    const sign = end === 'bump' || end === 'outboard' ? 1 : -1;
    const along = isTravel ? travelMm : steer;
    const scale = isTravel ? 1 : ranges[end];
    const leastAt = (index: number): number => {
      let least = Number.POSITIVE_INFINITY;
      for (let other = 0; other < (isTravel ? grid.columns : grid.rows); other++) {
        const [row, column] = isTravel ? [index, other] : [other, index];
        if (travelMm[row] < -ranges.droop - NOISE || travelMm[row] > ranges.bump + NOISE) continue;
        if (!isTravel || steer[column] === 0 || ranges[steer[column] > 0 ? 'outboard' : 'inboard'] > 0)
          least = Math.min(least, this.least[row * grid.columns + column]);
      }
      return least;
    };
    const zero = along.indexOf(0);
    for (let index = zero; index >= 0 && index < along.length; index += sign) {
      const there = leastAt(index);
      if (there >= 0) continue;
      if (index === zero) return 0;
      const here = Math.min(leastAt(index - sign), MOST_MM);
      const share = here / (here - there);
      return Math.abs(along[index - sign] + share * (along[index] - along[index - sign])) * scale;
    }
    return ranges[end];
  }
}

/** Rounding of Float64, mm. */
const NOISE = 1e-9;
/** Headroom above this says nothing of where it ends, mm. */
const MOST_MM = 1e3;

const limitKey = ({ kind, partIndex }: Pick<LimitFinding, 'kind' | 'partIndex'>): string =>
  `${kind} ${partIndex}`;
