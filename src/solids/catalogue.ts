import { memoize } from 'proxy-memoize';
import { DesignProblems, type Problem } from '../design/problem.ts';
import type { Corner, PartEntry, PartKind } from '../design/schema.ts';
import { buildBolts } from './bolts.ts';
import { buildBox } from './box.ts';
import type { BuildContext, Builder, Builders, BuiltSolid } from './build.ts';
import { buildCaliper } from './caliper.ts';
import { buildControlArm } from './controlArm.ts';
import { buildDamper } from './damper.ts';
import { DimensionError } from './dimensionError.ts';
import { buildHub } from './hub.ts';
import { buildJoint } from './joint.ts';
import { loadModeller } from './modeller.ts';
import { buildPlate } from './plate.ts';
import { buildRotor } from './rotor.ts';
import { MOST_CLAMPED_CHORD_MM } from './seatZones.ts';
import type { Solid } from './solid.ts';
import { buildSpacer } from './spacer.ts';
import { spinEnvelope, sweepsWhenTurned } from './spinEnvelope.ts';
import { buildTieRod } from './tieRod.ts';
import { buildTube } from './tube.ts';
import { buildTyre } from './tyre.ts';
import { buildUpright } from './upright.ts';
import { buildWheel } from './wheel.ts';

/** What makes the solids of each kind of part. */
export const BUILDERS: Builders = {
  wheel: buildWheel,
  tyre: buildTyre,
  hub: buildHub,
  spacer: buildSpacer,
  rotor: buildRotor,
  caliper: buildCaliper,
  upright: buildUpright,
  controlArm: buildControlArm,
  joint: buildJoint,
  tieRod: buildTieRod,
  damper: buildDamper,
  bolts: buildBolts,
  tube: buildTube,
  box: buildBox,
  plate: buildPlate,
};

/** Kinds of parts that are clamped to others. */
const CLAMPED: readonly PartKind[] = ['wheel', 'hub', 'spacer', 'rotor', 'caliper', 'upright', 'bolts'];

/** How far the polygons of a part's circles may be from them, mm. */
const chordToleranceOf = (kind: PartKind, chordToleranceMm: number): number =>
  CLAMPED.includes(kind) ? Math.min(chordToleranceMm, MOST_CLAMPED_CHORD_MM) : chordToleranceMm;

/** `Front hub`, and `Front hub housing` for the second body of its entry, `hub.housing`. */
function labelOf(entry: PartEntry, solidId: string): string {
  const which = solidId.slice(entry.id.length + 1);
  return [entry.label ?? entry.id, which].filter((word) => word !== '').join(' ');
}

/**
 * The solids of an entry. What turns with the wheel is made the body that it sweeps, with half of the chord tolerance for
 * its own shape and half for what it sweeps.
 */
function solidsOf(entry: PartEntry, context: BuildContext): BuiltSolid[] {
  const build = BUILDERS[entry.kind] as Builder<PartEntry>;
  const standing = build(entry, context);
  if (!standing.some(sweepsWhenTurned)) return standing;
  const half = { ...context, chordToleranceMm: context.chordToleranceMm / 2 };
  return build(entry, half).map((solid) => (sweepsWhenTurned(solid) ? spinEnvelope(solid, half) : solid));
}

interface MadeFrom {
  entry: PartEntry;
  corner: Corner;
  chordToleranceMm: number;
}

/**
 * Makes the solids of corners, one after another as a person changes dimensions. The solids of a part are made anew when
 * something has changed that its builder read of the corner; else they are those of the last time, meshes and all.
 */
export class SolidMaker {
  private makers = new Map<string, (from: MadeFrom) => BuiltSolid[]>();
  private corner: Corner | undefined;

  /**
   * The solids of all parts of a corner, in the file's order, at ride height in vehicle coordinates. Circles stay within
   * `chordToleranceMm` of their polygons. Throws DesignProblems with one problem for each part that cannot be built; its
   * path is the part's.
   */
  async make(given: Corner, chordToleranceMm: number): Promise<Solid[]> {
    if (!(chordToleranceMm > 0)) {
      throw new RangeError(`the chord tolerance must be more than 0 mm, not ${chordToleranceMm}`);
    }
    const modeller = await loadModeller();
    const problems: Problem[] = [];
    const makers: typeof this.makers = new Map();
    // A point that a solid holds on to is told apart by which object it is.
    const corner = withSameParts(this.corner, given);
    this.corner = corner;
    // No wait from here to the release: it frees what any other call has in the modeller too.
    try {
      const solids = corner.parts.flatMap((entry, partIndex): Solid[] => {
        const key = `${entry.kind} ${entry.id}`;
        const maker =
          this.makers.get(key) ?? memoize((from: MadeFrom) => solidsOf(from.entry, { ...from, modeller }));
        makers.set(key, maker);
        try {
          const chordMm = chordToleranceOf(entry.kind, chordToleranceMm);
          return maker({ entry, corner, chordToleranceMm: chordMm }).map((solid) => ({
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

/** `value` with what is equal in `earlier` put in its place, so that equal objects of the two are the same ones. */
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
