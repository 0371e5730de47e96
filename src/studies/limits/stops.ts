/**
 * Where the stops must go: the lock that is clear at all travel, the travel that is clear at all lock, and the best of both.
 *
 * Method: the sweep and proof of the whole travel and lock show what fails. What is clear there is clear over any part of it,
 * so only what fails is measured again over smaller ranges, in steps that a shop can make, until one step clears and the step
 * before it does not. Each stop is then applied to the file, and the changed corner is swept and proved as a whole.
 */
import type { Design } from '../../design/design.ts';
import { parseDesign } from '../../design/parse.ts';
import type { Corner } from '../../design/schema.ts';
import type { Findings } from '../../findings/findings.ts';
import type { LimitFinding } from '../../findings/limitFindings.ts';
import { inputOf } from '../../layouts/steering.ts';
import { limitsOf } from '../../proof/limits.ts';
import type { SweepResult } from '../../sweep/result.ts';
import { type Setup, SetupMemory, setUp } from '../../sweep/setUp.ts';
import { type Change, changeTo, withRemedy } from '../remedy/changedFile.ts';
import { type Choices, choicesOf, stepAtLeast } from '../remedy/choices.ts';
import { type StudiedInput, studiedInputs } from '../sensitivity/studiedInputs.ts';
import { type SweepAndProve, sweepAndProveHere } from '../vary/measurePairs.ts';
import { withoutMeasuredTo } from '../vary/variedField.ts';
import { bestRectangle } from './bestRectangle.ts';
import { type Bound, leastHeadroom } from './headroom.ts';
import { pathOfEnd, type RangeEnd, type Ranges, rangesOf, shareOf } from './ranges.ts';
import { damperStopMm, lockAngleDeg, lockCircleMm } from './stopFigures.ts';
import { failsGoal, type StopGoal, StopSearch, withoutTargets } from './stopSearch.ts';
import { type UsableRegion, usableRegion } from './usableRegion.ts';

/** lock: the steering is stopped, at all travel. travel: bump and droop are, at all lock. both: all of them. */
export const STOP_KINDS = ['lock', 'travel', 'both'] as const;
export type StopKind = (typeof STOP_KINDS)[number];

/** One end of travel or lock that is cut. */
export interface StopEnd {
  end: RangeEnd;
  /** In the file, and kept: mm of travel, mm or degrees of steering input. */
  asked: number;
  kept: number;
  /** Step in which it is cut, mm or degrees, and the unit of a length. */
  step: number;
  unit: 'mm' | 'in';
  /** Spacer that takes the cut off the rack's travel, rounded up to the step; undefined for travel. */
  spacerMm: number | undefined;
  /** Wheel angle at ride height at the lock of the file and at that kept, degrees; undefined for travel. */
  wheelAngleDeg: { asked: number | undefined; kept: number | undefined } | undefined;
  /**
   * Length between the damper's mounts at the stop, mm (`damperStopMm`): the bump stop is solid at this length or longer,
   * the strap tight at this length or shorter. Undefined for a lock and without a damper.
   */
  damperMm: number | undefined;
}

/** Ranges in which nothing fails that can be cleared by a stop: one step more at an end that is cut does not clear. */
export interface Stop {
  kind: StopKind;
  kept: Ranges;
  /** Share of travel times steering input that is kept, 0 to 1. */
  share: number;
  /** The ends that are cut. */
  ends: readonly StopEnd[];
  changes: readonly Change[];
  /** Turning circle with the kept lock, mm; see `lockCircleMm`. */
  turningCircleMm: number | undefined;
  /** What still fails in the sweep and proof of the changed corner, apart from what no stop clears. None if it is clear. */
  failing: readonly Bound[];
}

export interface StopStudy {
  setup: Setup;
  /** Sweep and findings of the whole travel and lock, for the goal: for contact alone, all targets are 0. */
  result: SweepResult;
  findings: Findings;
  goal: StopGoal;
  asked: Ranges;
  /** Turning circle with the lock of the file, mm. */
  turningCircleMm: number | undefined;
  /** Undefined if something fails at ride height, straight ahead, that is not in `always`. */
  region: UsableRegion | undefined;
  /** What fails somewhere and can be cleared by stops. */
  failing: readonly Bound[];
  /** What fails at ride height, straight ahead, and pairs that fail and do not move: no stop clears it. */
  always: readonly Bound[];
  /** Limits without an allowed value: whether they bind is unknown. */
  unknown: readonly LimitFinding[];
  /** Undefined if no cut of that kind clears, or nothing fails; `both` also if it keeps no more than one of the others. */
  stops: Readonly<Record<StopKind, Stop | undefined>>;
}

/** What a page or a report needs of a study: no bodies and no figures of the sweep. */
export type ShownStops = Omit<StopStudy, 'setup' | 'result' | 'findings'> & {
  setup: Pick<Setup, 'design' | 'solids' | 'pairs'>;
  findings: Pick<Findings, 'limits'>;
};

export interface StopOptions {
  settings: Setup['settings'];
  /** By default, every margin is kept. */
  goal?: StopGoal;
  /** By default, in the calling thread. */
  measure?: SweepAndProve;
  signal?: AbortSignal | undefined;
  /** Number of sweeps done, and of all known so far. */
  onProgress?: (done: number, total: number) => void;
}

/** `both` is given if it keeps this much more of travel times lock than the better of the others. */
const LEAST_GAIN = 0.02;
/** Largest number of steps by which the estimate of the best of both is moved. */
const MOST_MOVES = 12;
const ENDS = ['bump', 'droop', 'outboard', 'inboard'] as const satisfies RangeEnd[];

/**
 * Finds region and stops of a corner. Throws DesignProblems if it cannot be built. Rejects with the signal's reason when
 * cancelled.
 */
export async function stopsOf(
  design: Design,
  { settings, goal = 'margins', measure = sweepAndProveHere, signal, onProgress }: StopOptions,
): Promise<StopStudy> {
  const memory = new SetupMemory();
  const forGoal = (built: Setup) => (goal === 'contact' ? withoutTargets(built) : built);
  const setup = forGoal(await setUp(design, settings, memory));
  let [done, total] = [0, 1];
  const onTried = () => onProgress?.(++done, Math.max(total, done));
  const swept = await sweepAll(setup, measure, signal);
  onTried();
  const search = new StopSearch(setup, swept, measure, signal, onTried);
  const { findings, result } = swept;
  const asked = rangesOf(design.corner.suspension);
  const fit = findings.pairs.filter((pair) => !setup.pairs[pair.pair].moves && failsGoal(pair));
  const finder = new StopFinder(
    design,
    search,
    asked,
    leastHeadroom(search.headroom, result.poseState.length),
  );

  const stops: Record<StopKind, Stop | undefined> = { lock: undefined, travel: undefined, both: undefined };
  if (search.headroom.length > 0) {
    total = EXPECTED_SWEEPS;
    const kept: Record<StopKind, Ranges | undefined> = {
      lock: await finder.lock(),
      travel: await finder.travel(),
      both: await finder.both(result),
    };
    const shares = { lock: 0, travel: 0, both: 0 };
    for (const kind of STOP_KINDS) shares[kind] = kept[kind] === undefined ? 0 : shareOf(kept[kind], asked);
    if (shares.both < Math.max(shares.lock, shares.travel) + LEAST_GAIN) kept.both = undefined;
    for (const kind of STOP_KINDS) {
      const ranges = kept[kind];
      if (ranges === undefined) continue;
      const changes = finder.changesTo(ranges);
      const changed = await setUp(readChanged(design, changes), settings, memory);
      const after = await sweepAll(forGoal(changed), measure, signal);
      onTried();
      const left = new StopSearch(changed, after, measure);
      stops[kind] = {
        kind,
        kept: ranges,
        share: shares[kind],
        ends: finder.endsOf(ranges, changed.design.corner),
        changes,
        turningCircleMm: lockCircleMm(changed.design.corner),
        failing: left.headroom.map(({ bound }) => bound),
      };
    }
  }
  return {
    setup,
    result,
    findings,
    goal,
    asked,
    turningCircleMm: lockCircleMm(design.corner),
    region: usableRegion(result, search.headroom, inputScale(design.corner)),
    failing: search.headroom.map(({ bound }) => bound),
    always: [...fit.map(({ pair }): Bound => ({ kind: 'pair', pair })), ...search.always],
    unknown: findings.limits.filter(({ allowed }) => allowed === undefined),
    stops,
  };
}

/** Steering input at a steer; the steer itself if the corner does not steer, so that its region has an area. */
function inputScale({ suspension }: Corner): (steer: number) => number {
  const { outboard, inboard } = rangesOf(suspension);
  return outboard + inboard === 0 ? (steer) => steer : (steer) => inputOf(suspension, steer);
}

/** Sweeps of a usual study, for its progress. */
const EXPECTED_SWEEPS = 24;

/** The file of a corner, as JSON, with the changes of a stop, to be applied as one change. */
export const withStop = (design: Design, { changes }: Pick<Stop, 'changes'>): unknown =>
  withRemedy(design, changes);

function readChanged(design: Design, changes: readonly Change[]): Design {
  const source = withStop(design, { changes });
  const read = parseDesign(JSON.stringify(withoutMeasuredTo(source)), design.assets);
  if (read.kind === 'bad') throw new Error(`a stop gives a file with errors: ${read.problems[0].message}`);
  return read.design;
}

/** Sweeps and proves a corner with its limits. */
const sweepAll = (setup: Setup, measure: SweepAndProve, signal?: AbortSignal) => {
  const { design, mechanism, travelMm, steer } = setup;
  return measure(setup, limitsOf(design.corner, mechanism, travelMm, steer), signal);
};

/** Finds the kept ranges of each kind of stop. */
class StopFinder {
  private readonly design: Design;
  private readonly search: StopSearch;
  private readonly asked: Ranges;
  private readonly least: Float64Array;
  private readonly choices: Readonly<Record<RangeEnd, Choices>>;

  constructor(design: Design, search: StopSearch, asked: Ranges, least: Float64Array) {
    this.design = design;
    this.search = search;
    this.asked = asked;
    this.least = least;
    const inputs = new Map(studiedInputs(design).map((input) => [input.input.path, input]));
    const choicesFor = (end: RangeEnd): Choices => {
      const path = pathOfEnd(design.corner.suspension, end).join('.');
      // All four are required fields, so each is a value of the file.
      const choices = choicesOf(design, inputs.get(path) as StudiedInput, -1, asked[end]);
      return { ...choices, amounts: choices.amounts.filter((amount) => amount >= 0) };
    };
    this.choices = {
      bump: choicesFor('bump'),
      droop: choicesFor('droop'),
      outboard: choicesFor('outboard'),
      inboard: choicesFor('inboard'),
    };
  }

  /** The lock that is clear at all travel. Each side is found with the other one at 0: they share straight ahead. */
  async lock(): Promise<Ranges | undefined> {
    const [outboard, inboard] = [
      await this.cut('outboard', { ...this.asked, inboard: 0 }),
      await this.cut('inboard', { ...this.asked, outboard: 0 }),
    ];
    if (outboard === undefined || inboard === undefined) return undefined;
    return { ...this.asked, outboard, inboard };
  }

  /** The bump and droop that are clear at all lock. */
  async travel(): Promise<Ranges | undefined> {
    const [bump, droop] = [
      await this.cut('bump', { ...this.asked, droop: 0 }),
      await this.cut('droop', { ...this.asked, bump: 0 }),
    ];
    if (bump === undefined || droop === undefined || bump + droop === 0) return undefined;
    return { ...this.asked, bump, droop };
  }

  /** The largest clear rectangle: the estimate from the sweep, moved in steps until it clears and no end can be moved out. */
  async both({ travelMm, steer }: Parameters<typeof bestRectangle>[0]): Promise<Ranges | undefined> {
    let kept = this.rounded(bestRectangle({ travelMm, steer }, this.least, this.asked));
    const isUsable = ({ bump, droop }: Ranges) => bump + droop > 0;
    for (let moves = 0; isUsable(kept) && !(await this.search.isClear(kept)); moves++) {
      if (moves === MOST_MOVES) return undefined;
      const cut = ENDS.filter((end) => kept[end] < this.asked[end]);
      for (const end of cut) kept = { ...kept, [end]: this.beside(end, kept[end], -1) };
    }
    if (!isUsable(kept)) return undefined;
    let grown = true;
    for (let moves = 0; grown && moves < MOST_MOVES; moves++) {
      grown = false;
      for (const end of ENDS) {
        const wider = { ...kept, [end]: this.beside(end, kept[end], 1) };
        if (wider[end] === kept[end] || !(await this.search.isClear(wider))) continue;
        kept = wider;
        grown = true;
      }
    }
    return kept;
  }

  /** The changes of the file to kept ranges. */
  changesTo(kept: Ranges): Change[] {
    return ENDS.filter((end) => kept[end] < this.asked[end]).map((end) =>
      changeTo(this.design, this.choices[end], this.choices[end].amounts.indexOf(kept[end]) + 1),
    );
  }

  /** Figures of the ends that are cut. `corner`: the changed one. */
  endsOf(kept: Ranges, corner: Corner): StopEnd[] {
    const before = this.design.corner;
    return ENDS.filter((end) => kept[end] < this.asked[end]).map((end) => {
      const { step, unit, input } = this.choices[end];
      const isLock = end === 'outboard' || end === 'inboard';
      const cut = this.asked[end] - kept[end];
      return {
        end,
        asked: this.asked[end],
        kept: kept[end],
        step,
        unit,
        spacerMm:
          isLock && input.field.kind === 'length' ? Math.ceil(cut / step - ROUNDING) * step : undefined,
        wheelAngleDeg: isLock
          ? { asked: lockAngleDeg(before, end), kept: lockAngleDeg(corner, end) }
          : undefined,
        damperMm: isLock ? undefined : damperStopMm(corner, end === 'bump' ? kept.bump : -kept.droop),
      };
    });
  }

  /** What is kept of one end with the least cut; undefined if none clears. */
  private async cut(end: RangeEnd, ranges: Ranges): Promise<number | undefined> {
    const choices = this.choices[end];
    // Without travel at both ends there is nothing to sweep.
    const amounts =
      end === 'bump' || end === 'droop' ? choices.amounts.filter((amount) => amount > 0) : choices.amounts;
    const other = end === 'bump' ? 'droop' : end === 'droop' ? 'bump' : undefined;
    if (other !== undefined && this.asked[end] === 0) return 0;
    const step = await this.search.leastCut(end, { ...choices, amounts }, ranges);
    if (step === undefined) return undefined;
    return step === 0 ? this.asked[end] : amounts[step - 1];
  }

  /** Ranges rounded inward to the choices. */
  private rounded(ranges: Ranges): Ranges {
    const round = (end: RangeEnd): number => {
      const cut = this.asked[end] - ranges[end];
      if (cut <= ROUNDING) return this.asked[end];
      const step = stepAtLeast(this.choices[end], cut - ROUNDING);
      return this.choices[end].amounts[step - 1] ?? 0;
    };
    return {
      bump: round('bump'),
      droop: round('droop'),
      outboard: round('outboard'),
      inboard: round('inboard'),
    };
  }

  /** The next choice of an end further in (-1) or out (1); the same if there is none. */
  private beside(end: RangeEnd, kept: number, direction: 1 | -1): number {
    const all = [this.asked[end], ...this.choices[end].amounts];
    return all[all.indexOf(kept) - direction] ?? kept;
  }
}

/** Rounding of Float64, mm or steps. */
const ROUNDING = 1e-6;
