import { PairQuery } from '../../clearance/query.ts';
import { reportedClearance } from '../../clearance/reportedClearance.ts';
import { parseDesign } from '../../design/parse.ts';
import type { Corner } from '../../design/schema.ts';
import type { PairFinding, TightSpot } from '../../findings/findings.ts';
import { inputOf, lockOf } from '../../layouts/steering.ts';
import { compose, invert } from '../../math/rigid.ts';
import { solvePose } from '../../mechanism/solvePose.ts';
import type { Place } from '../../proof/proveBetween.ts';
import { pairId } from '../../sweep/pair.ts';
import type { SweepResult } from '../../sweep/result.ts';
import { type Built, buildCorner, type Setup, type SetupMemory, withBodies } from '../../sweep/setUp.ts';
import { DesignProblems, type Problem } from '../../units/problem.ts';
import { motionKey, pairKey } from '../vary/pairKey.ts';
import { typedAmount } from '../vary/typedAmount.ts';
import { withAmount } from '../vary/variedField.ts';
import { nearPoses } from './nearPoses.ts';
import { needsSmallerStep, type Rate, type Reading, rateOf } from './rate.ts';
import type { StudiedInput, StudiedValue } from './studiedInputs.ts';

/** Step of a length, mm, and of an angle, degrees. */
const STEPS = { length: 1, angle: 0.5 } as const;

/** Clearances of changed corners are measured this far beyond the limit of the sweep, mm. */
const BEYOND_LIMIT_MM = 10;

/** A pair that is not far, with the poses at which it is measured. */
export interface NearPair {
  finding: PairFinding;
  worst: TightSpot;
  /** Its least clearance at those poses. */
  reading: Reading;
  id: string;
  key: string;
  poses: readonly Place[];
}

/** Readings of the pairs that a change affects, or the reasons why the changed corner cannot be built. */
type Changed = { readings: ReadonlyMap<NearPair, Reading | undefined> } | { problems: readonly Problem[] };

/** Builds a corner with changed values, and measures the pairs that change. */
export class Variants {
  private readonly setup: Setup;
  private readonly memory: SetupMemory;
  private readonly result: SweepResult;
  private readonly motion: string;

  /** `result`: a complete sweep of the corner. `memory`: that of its setup. */
  constructor(setup: Setup, memory: SetupMemory, result: SweepResult) {
    this.setup = setup;
    this.memory = memory;
    this.result = result;
    this.motion = motionKey(setup);
  }

  /** A pair with its poses; undefined if its clearance, or the size of its depth, is not known. */
  nearPair(finding: PairFinding): NearPair | undefined {
    const { setup } = this;
    const { pair, worst } = finding;
    if (worst === undefined) return undefined;
    const poses = setup.pairs[pair].moves ? nearPoses(this.result, pair, worst) : [{ travelMm: 0, steer: 0 }];
    const reading = this.leastAt(setup, pair, poses);
    if (reading === undefined) return undefined;
    const id = pairId(setup.solids, setup.pairs[pair]);
    return { finding, worst, reading, id, key: pairKey(setup, pair, this.motion), poses };
  }

  /** The rates of the pairs that change with a value. */
  async study(
    studied: StudiedInput,
    near: readonly NearPair[],
  ): Promise<{ value: StudiedValue; rates: ReadonlyMap<NearPair, Rate> }> {
    const step = STEPS[studied.field.kind];
    const [below, above] = [
      await this.changed(studied, -step, near),
      await this.changed(studied, step, near),
    ];
    const rates = ratesOf(below, above, step);
    const bent = [...rates].flatMap(([pair, rate]) => (needsSmallerStep(rate) ? [pair] : []));
    if (bent.length > 0) {
      const smallStep = step / 4;
      const [low, high] = [
        await this.changed(studied, -smallStep, bent),
        await this.changed(studied, smallStep, bent),
      ];
      const smaller = ratesOf(low, high, smallStep);
      for (const [pair, rate] of ratesOf(below, above, step, smaller)) rates.set(pair, rate);
    }
    const problems = [below, above].flatMap((side) => ('problems' in side ? side.problems : []));
    return { value: { ...studied, problems }, rates };
  }

  /** Builds the corner with a value changed, and measures the given pairs that differ from the file's. */
  private async changed(
    { field, input }: StudiedInput,
    by: number,
    near: readonly NearPair[],
  ): Promise<Changed> {
    const { design, settings } = this.setup;
    const amount = typedAmount(design, field, input) + by;
    const read = parseDesign(JSON.stringify(withAmount(design.source, field, amount)), design.assets);
    if (read.kind === 'bad') return { problems: read.problems };
    let built: Built;
    try {
      built = await buildCorner(read.design, settings, this.memory);
    } catch (error) {
      if (error instanceof DesignProblems) return { problems: error.problems };
      throw error;
    }
    const motion = motionKey(built);
    const indexOf = new Map(built.pairs.map((pair, p) => [pairId(built.solids, pair), p]));
    const affected = near.flatMap((pair) => {
      const p = indexOf.get(pair.id);
      return p !== undefined && pairKey(built, p, motion) === pair.key ? [] : [{ pair, p }];
    });
    const measured = affected.flatMap(({ p }) => (p === undefined ? [] : [built.pairs[p]]));
    const setup = withBodies({ ...built, pairs: measured }, this.memory);
    let next = 0;
    return {
      readings: new Map(
        // A pair that no longer exists has no reading.
        affected.map(({ pair, p }) => [
          pair,
          p === undefined ? undefined : this.leastAt(setup, next++, pair.poses),
        ]),
      ),
    };
  }

  /** The least clearance of a pair at some poses of the file's corner; undefined if one of them has none. */
  private leastAt(setup: Setup, pair: number, poses: readonly Place[]): Reading | undefined {
    const { a, b } = setup.bodies[pair];
    const { a: solidA, b: solidB } = setup.pairs[pair];
    const query = new PairQuery(a, b);
    let least: Reading | undefined;
    for (const pose of poses) {
      const { travelMm, steer } = poseIn(setup.design.corner, this.setup.design.corner, pose);
      const solved = solvePose(setup.mechanism, travelMm, steer);
      if (solved.kind !== 'solved') return undefined;
      const [fromA, fromB] = [
        solved.carriers[setup.solids[solidA].carrier],
        solved.carriers[setup.solids[solidB].carrier],
      ];
      query.run(compose(invert(fromA), fromB), setup.settings.limitMm + BEYOND_LIMIT_MM);
      if (query.kind === 'beyond') continue;
      if (query.kind === 'unknown') return undefined;
      const { clearanceMm, errorMm } = reportedClearance(query, 2 * solved.residualMm);
      if (errorMm === Number.POSITIVE_INFINITY) return undefined;
      if (least === undefined || clearanceMm < least.mm) least = { mm: clearanceMm, errorMm };
    }
    return least;
  }
}

/** The rates of all pairs that a change to either side affects. */
function ratesOf(
  below: Changed,
  above: Changed,
  step: number,
  smaller?: ReadonlyMap<NearPair, Rate>,
): Map<NearPair, Rate> {
  const changed = [below, above].flatMap((side) => ('readings' in side ? [...side.readings.keys()] : []));
  const readingOf = (side: Changed, pair: NearPair) =>
    'problems' in side ? undefined : side.readings.has(pair) ? side.readings.get(pair) : pair.reading;
  return new Map(
    [...new Set(changed)].map((pair) => [
      pair,
      rateOf(pair.reading, readingOf(below, pair), readingOf(above, pair), step, smaller?.get(pair)),
    ]),
  );
}

/**
 * A pose of the file's corner in a changed one: an end of travel or steering stays that end, and any other pose keeps its
 * travel and its steering input.
 */
function poseIn(changed: Corner, { suspension: file }: Corner, { travelMm, steer }: Place): Place {
  const { suspension } = changed;
  const { bump, droop } = suspension.travel;
  const travel =
    travelMm === file.travel.bump
      ? bump
      : travelMm === -file.travel.droop
        ? -droop
        : Math.max(-droop, Math.min(bump, travelMm));
  if (steer === 0 || Math.abs(steer) === 1) return { travelMm: travel, steer };
  const lock = lockOf(suspension, steer > 0 ? 'outboard' : 'inboard');
  return {
    travelMm: travel,
    steer: lock === 0 ? steer : Math.max(-1, Math.min(1, inputOf(file, steer) / lock)),
  };
}
