import { memoize } from 'proxy-memoize';
import type { Corner, PartEntry, PartKind } from '../design/schema.ts';
import { BUILDERS } from '../parts/builders.ts';
import { kindOf } from '../parts/kindOf.ts';
import { DesignProblems, type Problem } from '../units/problem.ts';
import type { BuildContext, Builder, BuiltSolid } from './build.ts';
import { DimensionError } from './dimensionError.ts';
import { MOST_CLAMPED_CHORD_MM } from './fasteners/seatZones.ts';
import { loadModeller } from './modeller.ts';
import type { Solid } from './solid.ts';
import { spinEnvelope, sweepsWhenTurned } from './spinEnvelope.ts';

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
  const half = { ...context, chordToleranceMm: context.chordToleranceMm / 2 };
  return build(entry, half).map((solid) => (sweepsWhenTurned(solid) ? spinEnvelope(solid, half) : solid));
}

interface BuildInput extends Omit<BuildContext, 'modeller'> {
  entry: PartEntry;
}

/** Which solids are built; by default all, with the meshes that are shown. */
export interface SolidChoice {
  /** Builds only the solids of these parts. */
  isWanted?: (entry: PartEntry) => boolean;
  /** See `BuildContext`. */
  measuredOnly?: boolean;
}

/**
 * Builds the solids of successive corners as dimensions change. The solids of a part are built again only if something in
 * the corner changed that its builder read; else the previous objects are reused, meshes included.
 */
export class SolidMaker {
  private makers = new Map<string, (from: BuildInput) => BuiltSolid[]>();
  private corner: Corner | undefined;
  private readonly size: number;

  /** `size`: for how many of the last states of a part its solids are kept. */
  constructor(size = 1) {
    this.size = size;
  }

  /**
   * The solids of all parts of a corner, in the file's order, at ride height in vehicle coordinates. Circles are within
   * `chordToleranceMm` of their polygons. Throws DesignProblems with one problem for each part that cannot be built; its
   * path is the part's.
   */
  async make(
    given: Corner,
    chordToleranceMm: number,
    { isWanted = () => true, measuredOnly = false }: SolidChoice = {},
  ): Promise<Solid[]> {
    if (!(chordToleranceMm > 0)) {
      throw new RangeError(`the chord tolerance must be more than 0 mm, not ${chordToleranceMm}`);
    }
    const modeller = await loadModeller();
    const problems: Problem[] = [];
    const makers: typeof this.makers = new Map();
    // Reused solids are recognised by object identity, so equal parts of the corner must be the same objects.
    const corner = withSameParts(this.corner, given);
    this.corner = corner;
    // No await between here and release(), which also frees the objects of any other call.
    try {
      const solids = corner.parts.flatMap((entry, partIndex): Solid[] => {
        const key = `${entry.kind} ${entry.id}`;
        const maker =
          this.makers.get(key) ??
          memoize((from: BuildInput) => solidsOf(from.entry, { ...from, modeller }), { size: this.size });
        makers.set(key, maker);
        if (!isWanted(entry)) return [];
        try {
          const chordMm = chordToleranceOf(entry.kind, chordToleranceMm);
          return maker({ entry, corner, chordToleranceMm: chordMm, measuredOnly }).map((solid) => ({
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
      this.makers = makers;
    }
  }
}

/** `value` with every object that is equal in `earlier` replaced by that object. */
function withSameParts<T>(earlier: unknown, value: T): T {
  if (typeof value !== 'object' || value === null || typeof earlier !== 'object' || earlier === null)
    return value;
  const [before, now] = [earlier as Record<string, unknown>, value as Record<string, unknown>];
  const shared = Object.entries(now).map(([key, held]) => [key, withSameParts(before[key], held)] as const);
  const isSame =
    Array.isArray(earlier) === Array.isArray(value) &&
    Object.keys(before).length === shared.length &&
    shared.every(([key, held]) => Object.hasOwn(before, key) && before[key] === held);
  if (isSame) return earlier as T;
  return (Array.isArray(value) ? shared.map(([, held]) => held) : Object.fromEntries(shared)) as T;
}

/** The solids of one corner: see `SolidMaker.make`. */
export const buildSolids = (corner: Corner, chordToleranceMm: number): Promise<Solid[]> =>
  new SolidMaker().make(corner, chordToleranceMm);
