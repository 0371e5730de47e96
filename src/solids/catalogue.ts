import type { Corner, PartEntry, PartKind } from '../design/schema.ts';
import { BUILDERS } from '../parts/builders.ts';
import { kindOf } from '../parts/kindOf.ts';
import { DesignProblems, type Problem } from '../units/problem.ts';
import {
  type BuildContext,
  type Builder,
  type BuiltSolid,
  type PieceBuild,
  withChordTolerance,
} from './build.ts';
import { DimensionError } from './dimensionError.ts';
import { MOST_CLAMPED_CHORD_MM } from './fasteners/seatZones.ts';
import { loadModeller, type Model, type Modeller } from './modeller.ts';
import type { Mesh, Solid } from './solid.ts';
import { spinEnvelope, sweepsWhenTurned } from './spinEnvelope.ts';
import { type Tracked, trackReads } from './trackedReads.ts';

/** Chord tolerance for a kind of part, mm. */
const chordToleranceOf = (kind: PartKind, chordToleranceMm: number): number =>
  kindOf(kind).isClamped ? Math.min(chordToleranceMm, MOST_CLAMPED_CHORD_MM) : chordToleranceMm;

/** Label of a solid: `Front hub`, and `Front hub housing` for the second solid of the entry, `hub.housing`. */
function labelOf(entry: PartEntry, solidId: string): string {
  const which = solidId.slice(entry.id.length + 1);
  return [entry.label ?? entry.id, which].filter((word) => word !== '').join(' ');
}

/**
 * The solids of an entry. A solid that turns with the wheel is replaced by the body that it sweeps: half of the chord
 * tolerance is for its own shape, half for the sweep.
 */
function solidsOf(entry: PartEntry, context: BuildContext): BuiltSolid[] {
  const build = BUILDERS[entry.kind] as Builder<PartEntry>;
  const solids = build(entry, context);
  if (!solids.some(sweepsWhenTurned)) return solids;
  const half = withChordTolerance(context, context.chordToleranceMm / 2);
  return build(entry, half).map((solid) => (sweepsWhenTurned(solid) ? spinEnvelope(solid, half) : solid));
}

interface BuildInput extends Omit<BuildContext, 'modeller' | 'piece' | 'model'> {
  entry: PartEntry;
}

/** Which solids are built; by default all, with the meshes that are shown. */
export interface SolidChoice {
  /** Builds only the solids of these parts. */
  isWanted?: (entry: PartEntry) => boolean;
  /** See `BuildContext`. */
  measuredOnly?: boolean;
}

/** The solids of a part, its pieces and models by their keys, and for which corners they hold. */
interface State extends Tracked<BuildInput, BuiltSolid[]> {
  pieces: ReadonlyMap<string, Tracked<BuildInput, unknown>>;
  models: ReadonlyMap<string, Model>;
}

/**
 * Builds the solids of successive corners as dimensions change. The solids of a part are built again only if something in
 * the corner changed that its builder read; else the previous objects are reused, meshes included. A mesh that is built
 * again with the same numbers is replaced by the previous object.
 */
export class SolidMaker {
  private states = new Map<string, State>();
  private readonly base: SolidMaker | undefined;

  /** `base`: the solids that it built last are reused too, however many corners follow. */
  constructor(base?: SolidMaker) {
    this.base = base;
  }

  /**
   * The solids of all parts of a corner, in the file's order, at ride height in vehicle coordinates. Circles are within
   * `chordToleranceMm` of their polygons. Throws DesignProblems with one problem for each part that cannot be built; its
   * path is the part's.
   */
  async make(
    corner: Corner,
    chordToleranceMm: number,
    { isWanted = () => true, measuredOnly = false }: SolidChoice = {},
  ): Promise<Solid[]> {
    if (!(chordToleranceMm > 0)) {
      throw new RangeError(`the chord tolerance must be more than 0 mm, not ${chordToleranceMm}`);
    }
    const modeller = await loadModeller();
    const problems: Problem[] = [];
    const states: typeof this.states = new Map();
    // No await between here and release(), which also frees the objects of any other call.
    try {
      const solids = corner.parts.flatMap((entry, partIndex): Solid[] => {
        const key = `${entry.kind} ${entry.id}`;
        const earlier = [this.states.get(key), this.base?.states.get(key)].filter(
          (state) => state !== undefined,
        );
        if (earlier.length > 0) states.set(key, earlier[0]);
        if (!isWanted(entry)) return [];
        try {
          const chordMm = chordToleranceOf(entry.kind, chordToleranceMm);
          const input = { entry, corner, chordToleranceMm: chordMm, measuredOnly };
          const state = earlier.find((kept) => kept.holdsFor(input)) ?? build(input, modeller, earlier);
          states.set(key, state);
          return state.result.map((solid) => ({
            ...solid,
            partIndex,
            label: labelOf(entry, solid.id),
            allowanceMm: entry.allowance,
          }));
        } catch (error) {
          if (error instanceof DesignProblems) problems.push(...error.problems);
          else if (error instanceof Error) {
            const message = error instanceof DimensionError ? error.inUnit(corner.unit) : error.message;
            problems.push({ path: `parts[${partIndex}]`, found: entry.id, message });
          } else throw error;
          return [];
        }
      });
      if (problems.length > 0) throw new DesignProblems(problems);
      return solids;
    } finally {
      modeller.release();
      this.states = states;
    }
  }
}

/** Builds the solids of a part, with the pieces and the meshes of earlier states where they are equal. */
function build(input: BuildInput, modeller: Modeller, earlier: readonly State[]): State {
  const pieces = new Map<string, Tracked<BuildInput, unknown>>();
  const models = new Map<string, Model>();
  const contextOf = (from: BuildInput): BuildContext => ({
    chordToleranceMm: from.chordToleranceMm,
    measuredOnly: from.measuredOnly,
    modeller,
    // Read only by builders that use it: else each change of the corner would count.
    get corner() {
      return from.corner;
    },
    piece<E, T>(name: string, chordToleranceMm: number, make: PieceBuild<E, T>): T {
      const key = `${name} ${chordToleranceMm}`;
      const own = { ...input, chordToleranceMm };
      const found = earlier.map((state) => state.pieces.get(key)).find((kept) => kept?.holdsFor(input));
      const made =
        found ??
        pieceOf(
          trackReads(own, (read) => make(read.entry as E, contextOf(read))),
          chordToleranceMm,
        );
      pieces.set(key, made);
      return made.result as T;
    },
    model<M extends Model>(key: string, make: () => M): M {
      const found = earlier.map((state) => state.models.get(key)).find((kept) => kept !== undefined);
      const model = (models.get(key) ?? found ?? make()) as M;
      models.set(key, model);
      return model;
    },
  });
  const state = stateOf(
    trackReads(input, (from) => solidsOf(from.entry, contextOf(from))),
    pieces,
    models,
  );
  const known = earlier.flatMap(({ result }) => result);
  for (const solid of state.result) {
    const same = known.filter(({ id }) => id === solid.id);
    for (const name of MESHES) {
      const mesh = solid[name];
      const found = mesh && same.find((other) => isSameMesh(other[name], mesh))?.[name];
      if (found !== undefined) solid[name] = found;
    }
  }
  return state;
}

/*
 * The closures of states and pieces are made here and not in `build`: there they would hold its `earlier` states, these
 * the ones before, and so on.
 */

/** A piece that is built with a chord tolerance of its own. */
const pieceOf = (
  { result, holdsFor }: Tracked<BuildInput, unknown>,
  chordToleranceMm: number,
): Tracked<BuildInput, unknown> => ({
  result,
  holdsFor: (other) => holdsFor({ ...other, chordToleranceMm }),
});

const stateOf = (
  { result, holdsFor }: Tracked<BuildInput, BuiltSolid[]>,
  pieces: State['pieces'],
  models: State['models'],
): State => ({
  result,
  pieces,
  models,
  holdsFor: (other) => holdsFor(other) && [...pieces.values()].every((made) => made.holdsFor(other)),
});

const MESHES = ['mesh', 'shown', 'unswept', 'withoutBall'] as const;

const isSameMesh = (one: Mesh | undefined, other: Mesh): boolean =>
  one !== undefined &&
  isSameArray(one.positions, other.positions) &&
  isSameArray(one.triangles, other.triangles);

function isSameArray<T extends Float64Array | Uint32Array>(one: T, other: T): boolean {
  if (one.length !== other.length) return false;
  for (let k = 0; k < one.length; k++) if (!Object.is(one[k], other[k])) return false;
  return true;
}

/** The solids of one corner: see `SolidMaker.make`. */
export const buildSolids = (corner: Corner, chordToleranceMm: number): Promise<Solid[]> =>
  new SolidMaker().make(corner, chordToleranceMm);
