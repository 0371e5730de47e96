import { DesignProblems, type Problem } from '../design/problem.ts';
import type { Corner, PartEntry } from '../design/schema.ts';
import { buildBox } from './box.ts';
import type { BuildContext, Builder, Builders, BuiltSolid } from './build.ts';
import { buildCaliper } from './caliper.ts';
import { buildControlArm } from './controlArm.ts';
import { buildDamper } from './damper.ts';
import { buildHub } from './hub.ts';
import { buildJoint } from './joint.ts';
import { loadModeller } from './modeller.ts';
import { buildPlate } from './plate.ts';
import { buildRotor } from './rotor.ts';
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
  tube: buildTube,
  box: buildBox,
  plate: buildPlate,
};

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

/**
 * The solids of all parts of a corner, in the file's order, at ride height in vehicle coordinates. Circles stay within
 * `chordToleranceMm` of their polygons. Throws DesignProblems with one problem for each part that cannot be built; its
 * path is the part's.
 */
export async function buildSolids(corner: Corner, chordToleranceMm: number): Promise<Solid[]> {
  if (!(chordToleranceMm > 0)) {
    throw new RangeError(`the chord tolerance must be more than 0 mm, not ${chordToleranceMm}`);
  }
  const modeller = await loadModeller();
  const context = { corner, modeller, chordToleranceMm };
  const problems: Problem[] = [];
  // No wait from here to the release: it frees what any other call has in the modeller too.
  try {
    const solids = corner.parts.flatMap((entry, partIndex): Solid[] => {
      try {
        return solidsOf(entry, context).map((solid) => ({
          ...solid,
          partIndex,
          label: labelOf(entry, solid.id),
          allowanceMm: entry.allowance,
        }));
      } catch (error) {
        if (error instanceof DesignProblems) problems.push(...error.problems);
        else if (error instanceof Error) {
          problems.push({ path: `parts[${partIndex}]`, found: entry.id, message: error.message });
        } else throw error;
        return [];
      }
    });
    if (problems.length > 0) throw new DesignProblems(problems);
    return solids;
  } finally {
    modeller.release();
  }
}
