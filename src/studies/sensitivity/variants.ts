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
import { withAmount, withoutMeasuredTo } from '../vary/variedField.ts';
import { nearPoses } from './nearPoses.ts';
import { needsSmallerStep, type Rate, type Reading, rateOf } from './rate.ts';
import type { StudiedInput, StudiedValue } from './studiedInputs.ts';

/** Step of a length, mm, and of an angle, degrees. */
export const STEPS = { length: 1, angle: 0.5 } as const;

/** States of a part that are kept: below and above its value, by a step and by a quarter of it, and the file's. */
export const STATES = 6;

/** Clearances of changed corners are measured this far beyond the limit of the sweep, mm. */
const BEYOND_LIMIT_MM = 10;

/** A pair, with the poses at which it is measured. */
export interface PosedPair {
  /** Its least clearance at those poses. */
  reading: Reading;
  id: string;
  key: string;
  poses: readonly Place[];
  /** Whether a pose at an end of travel or steering stays as it is if that end changes, or stays at that end. */
  posesStay: boolean;
}

/** A pair that is not far, at the poses that can be its worst. */
export interface NearPair extends PosedPair {
  finding: PairFinding;
  worst: TightSpot;
}

/** Readings of the pairs that a change affects, or the reasons why the changed corner cannot be built. */
type Changed<P> = { readings: ReadonlyMap<P, Reading | undefined> } | { problems: readonly Problem[] };

/** Builds a corner with changed values, and measures the pairs that change. */
export class Variants {
  private readonly setup: Setup;
  private readonly memory: SetupMemory;
  private readonly motion: string;
  /** Ids of the parts of the pairs that are studied. */
  private readonly studiedParts: ReadonlySet<string>;

  /** `memory`: that of the setup; it should keep `STATES` states of a part. */
  constructor(setup: Setup, memory: SetupMemory) {
    this.setup = setup;
    this.memory = memory;
    this.motion = motionKey(setup);
    const inPairs = new Set(
      setup.pairs.flatMap(({ a, b }) => [setup.solids[a].partIndex, setup.solids[b].partIndex]),
    );
    const { parts } = setup.design.corner;
    this.studiedParts = new Set([...inPairs].map((index) => parts[index].id));
  }

  /**
   * A pair at the poses that can be its worst; undefined if its clearance, or the size of its depth, is not known.
   * `result`: a complete sweep of the corner.
   */
  nearPair(finding: PairFinding, result: SweepResult): NearPair | undefined {
    const { pair, worst } = finding;
    if (worst === undefined) return undefined;
    const poses = this.setup.pairs[pair].moves ? nearPoses(result, pair, worst) : [{ travelMm: 0, steer: 0 }];
    const posed = this.posedPair(pair, poses, false);
    return posed === undefined ? undefined : { ...posed, finding, worst };
  }

  /** A pair at some poses; undefined if its clearance at one of them, or the size of its depth, is not known. */
  posedPair(pair: number, poses: readonly Place[], posesStay: boolean): PosedPair | undefined {
    const { setup } = this;
    const reading = this.leastAt(setup, pair, poses, posesStay);
    if (reading === undefined) return undefined;
    const id = pairId(setup.solids, setup.pairs[pair]);
    return { reading, id, key: pairKey(setup, pair, this.motion), poses, posesStay };
  }

  /** The rates of the pairs that change with a value. */
  async study<P extends PosedPair>(
    studied: StudiedInput,
    near: readonly P[],
  ): Promise<{ value: StudiedValue; rates: ReadonlyMap<P, Rate> }> {
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
  private async changed<P extends PosedPair>(
    studied: StudiedInput,
    by: number,
    near: readonly P[],
  ): Promise<Changed<P>> {
    const { design, settings } = this.setup;
    const changed = withAmount(
      withoutMeasuredTo(design.source),
      studied.field,
      typedAmount(design, studied.field, studied.input) + by,
    );
    const read = parseDesign(JSON.stringify(changed), design.assets);
    if (read.kind === 'bad') return { problems: read.problems };
    let built: Built;
    try {
      built = await buildCorner(read.design, settings, this.memory, {
        isWanted: ({ id }) => this.studiedParts.has(id),
        measuredOnly: true,
      });
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
    const setup = withBodies({ ...built, pairs: measured }, this.memory, true);
    let next = 0;
    return {
      readings: new Map(
        // A pair that no longer exists has no reading.
        affected.map(({ pair, p }) => [
          pair,
          p === undefined ? undefined : this.leastAt(setup, next++, pair.poses, pair.posesStay),
        ]),
      ),
    };
  }

  /** The least clearance of a pair at some poses of the file's corner; undefined if one of them has none. */
  private leastAt(
    setup: Setup,
    pair: number,
    poses: readonly Place[],
    posesStay: boolean,
  ): Reading | undefined {
    const { a, b } = setup.bodies[pair];
    const { a: solidA, b: solidB } = setup.pairs[pair];
    const query = new PairQuery(a, b);
    let least: Reading | undefined;
    for (const pose of poses) {
      const { travelMm, steer } = poseIn(setup.design.corner, this.setup.design.corner, pose, posesStay);
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
function ratesOf<P extends PosedPair>(
  below: Changed<P>,
  above: Changed<P>,
  step: number,
  smaller?: ReadonlyMap<P, Rate>,
): Map<P, Rate> {
  const changed = [below, above].flatMap((side) => ('readings' in side ? [...side.readings.keys()] : []));
  const readingOf = (side: Changed<P>, pair: P) =>
    'problems' in side ? undefined : side.readings.has(pair) ? side.readings.get(pair) : pair.reading;
  return new Map(
    [...new Set(changed)].map((pair) => [
      pair,
      rateOf(pair.reading, readingOf(below, pair), readingOf(above, pair), step, smaller?.get(pair)),
    ]),
  );
}

/**
 * A pose of the file's corner in a changed one, which keeps its travel and its steering input. Unless `posesStay`, a pose
 * at an end of travel or steering stays at that end.
 */
function poseIn(
  changed: Corner,
  { suspension: file }: Corner,
  { travelMm, steer }: Place,
  posesStay: boolean,
): Place {
  const { suspension } = changed;
  const lock = lockOf(suspension, steer > 0 ? 'outboard' : 'inboard');
  const kept = lock === 0 ? steer : inputOf(file, steer) / lock;
  if (posesStay) return { travelMm, steer: kept };
  const { bump, droop } = suspension.travel;
  const travel =
    travelMm === file.travel.bump
      ? bump
      : travelMm === -file.travel.droop
        ? -droop
        : Math.max(-droop, Math.min(bump, travelMm));
  const isEnd = steer === 0 || Math.abs(steer) === 1;
  return { travelMm: travel, steer: isEnd ? steer : Math.max(-1, Math.min(1, kept)) };
}
