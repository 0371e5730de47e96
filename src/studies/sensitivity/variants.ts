import { forgetTree } from '../../clearance/body.ts';
import type { SolidChoice } from '../../solids/catalogue.ts';
import type { Mesh, Solid } from '../../solids/solid.ts';
import { pairId } from '../../sweep/pair.ts';
import { type Built, buildCorner, meshBeside, withBodies } from '../../sweep/setUp.ts';
import { DesignProblems, type Problem } from '../../units/problem.ts';
import { motionKey } from '../vary/pairKey.ts';
import type { Changes } from './changes.ts';
import { changedReading, type PosedPair } from './posedPair.ts';
import { needsSmallerStep, type Rate, type Reading, rateOf } from './rate.ts';
import type { StudiedInput } from './studiedInputs.ts';

/** Step of a length, mm, and of an angle, degrees. */
export const STEPS = { length: 1, angle: 0.5 } as const;

/** Readings of the pairs that a change affects, or the reasons why the changed corner cannot be built. */
type Changed<P> = { readings: ReadonlyMap<P, Reading | undefined> } | { problems: readonly Problem[] };

/** Rates of the pairs that change with a value, and the reasons why the corner cannot be built beside it. */
export interface ValueRates<P extends PosedPair> {
  problems: readonly Problem[];
  rates: ReadonlyMap<P, Rate>;
}

/** Builds a corner with changed values, and measures the pairs that change. */
export class Variants<P extends PosedPair> {
  private readonly base: Built;
  private readonly pairs: readonly P[];
  private readonly baseMotion: string;
  /** Index of each pair of the base, by its id. */
  private readonly baseIndex: ReadonlyMap<string, number>;
  private readonly baseMeshes: ReadonlySet<Mesh>;
  private readonly changes: Changes;

  private constructor(base: Built, pairs: readonly P[], changes: Changes) {
    this.base = base;
    this.pairs = pairs;
    this.baseMotion = motionKey(base);
    this.baseIndex = indexOfPairs(base);
    this.baseMeshes = new Set(base.solids.flatMap(measuredMeshes));
    this.changes = changes;
  }

  /** `pairs`: those of the corner to measure. Throws DesignProblems if the corner cannot be built. */
  static async of<P extends PosedPair>(changes: Changes, pairs: readonly P[]): Promise<Variants<P>> {
    const { design, settings, memory } = changes;
    const base = await buildCorner(design, settings, memory, choiceOf(pairs));
    const indexOf = indexOfPairs(base);
    // Changes take the bodies of unchanged solids from here.
    const measured = pairs.flatMap(({ id }) => base.pairs[indexOf.get(id) ?? -1] ?? []);
    withBodies({ ...base, pairs: measured }, memory, true);
    return new Variants(base, pairs, changes);
  }

  /** The rates of the pairs that change with a value. */
  async study(studied: StudiedInput): Promise<ValueRates<P>> {
    const step = STEPS[studied.field.kind];
    const [below, above] = [
      await this.changed(studied, -step, this.pairs),
      await this.changed(studied, step, this.pairs),
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
    return { problems, rates };
  }

  /** Builds the corner with a value changed, and measures the given pairs that differ from the base. */
  private async changed(studied: StudiedInput, by: number, near: readonly P[]): Promise<Changed<P>> {
    const { base } = this;
    const { read, memory } = this.changes.of(studied, by);
    if (read.kind === 'bad') return { problems: read.problems };
    let built: Built;
    try {
      built = await buildCorner(read.design, base.settings, memory, choiceOf(near));
    } catch (error) {
      if (error instanceof DesignProblems) return { problems: error.problems };
      throw error;
    }
    const isSameMotion = motionKey(built) === this.baseMotion;
    const indexOf = indexOfPairs(built);
    const affected = near.flatMap((pair) => {
      const p = indexOf.get(pair.id);
      const isSame = p !== undefined && this.isUnchanged(pair.id, built, p, isSameMotion);
      return isSame ? [] : [{ pair, p }];
    });
    const measured = affected.flatMap(({ p }) => (p === undefined ? [] : [built.pairs[p]]));
    // The poses of the base are solved once.
    const mechanism = isSameMotion ? base.mechanism : built.mechanism;
    const setup = withBodies({ ...built, mechanism, pairs: measured }, memory, true);
    let next = 0;
    const readings = new Map<P, Reading | undefined>(
      // A pair that no longer exists has no reading.
      affected.map(({ pair, p }) => [
        pair,
        p === undefined ? undefined : changedReading(base.design.corner, setup, next++, pair),
      ]),
    );
    for (const mesh of built.solids.flatMap(measuredMeshes)) if (!this.baseMeshes.has(mesh)) forgetTree(mesh);
    return { readings };
  }

  /** Whether a pair of a changed corner is measured as in the base. Equal meshes are one object, see `SolidMaker`. */
  private isUnchanged(id: string, built: Built, p: number, isSameMotion: boolean): boolean {
    const q = this.baseIndex.get(id);
    if (q === undefined || !(isSameMotion || !built.pairs[p].moves)) return false;
    const [now, before] = [partsOfPair(built, p), partsOfPair(this.base, q)];
    return now.meshes.every((mesh, k) => mesh === before.meshes[k]) && now.rest === before.rest;
  }
}

/** The parts of some pairs, without meshes that are only shown. */
function choiceOf(pairs: readonly PosedPair[]): SolidChoice {
  const parts = new Set(pairs.flatMap((pair) => pair.parts));
  return { isWanted: ({ id }) => parts.has(id), measuredOnly: true };
}

/** Every mesh of a solid that may be measured: see `meshBeside`. */
const measuredMeshes = ({ mesh, unswept = mesh, withoutBall = mesh }: Solid): Mesh[] => [
  mesh,
  unswept,
  withoutBall,
];

const indexOfPairs = ({ solids, pairs }: Built): Map<string, number> =>
  new Map(pairs.map((pair, p) => [pairId(solids, pair), p]));

/** The two meshes of a pair, and all else of the pair as JSON. */
function partsOfPair({ solids, pairs }: Built, p: number) {
  const { a, b, ...pair } = pairs[p];
  const sides = [
    [a, b],
    [b, a],
  ].map(([one, other]) => ({ ...meshBeside(solids[one], solids[other]), carrier: solids[one].carrier }));
  return {
    meshes: sides.map(({ mesh }) => mesh),
    rest: JSON.stringify([pair, sides.map(({ mesh: _, ...side }) => side)]),
  };
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
