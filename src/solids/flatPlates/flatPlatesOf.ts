import type { Corner, PartEntry } from '../../design/schema.ts';
import { PLATE_MAKERS } from '../../parts/plateMakers.ts';
import { DesignProblems, type Problem } from '../../units/problem.ts';
import { DimensionError } from '../dimensionError.ts';
import { loadModeller } from '../modeller.ts';
import type { Point2 } from '../simplePolygon.ts';
import type { BendRule, FlatPlate } from './flatPlate.ts';
import { FINE_CHORD_MM, mappedLoop } from './loops.ts';
import type { PlateMaker } from './plateMaker.ts';

/**
 * The flat plates of a corner, in the file's order. Those of a right corner are mirrored, as its solids are exported.
 * `length`: a length in the unit of the file. Throws DesignProblems with one problem for each part that cannot be built.
 */
export async function flatPlatesOf(
  corner: Corner,
  { bend, length }: { bend: BendRule | undefined; length(mm: number): string },
): Promise<FlatPlate[]> {
  const modeller = await loadModeller();
  const problems: Problem[] = [];
  // No await between here and release(), which also frees the objects of any other call.
  try {
    const plates = corner.parts.flatMap((entry, partIndex): FlatPlate[] => {
      const make = PLATE_MAKERS[entry.kind] as PlateMaker<PartEntry> | undefined;
      try {
        return make?.(entry, { corner, modeller, chordToleranceMm: FINE_CHORD_MM, bend, length }) ?? [];
      } catch (error) {
        if (!(error instanceof Error)) throw error;
        const message = error instanceof DimensionError ? error.inUnit(corner.unit) : error.message;
        problems.push({ path: `parts[${partIndex}]`, found: entry.id, message });
        return [];
      }
    });
    if (problems.length > 0) throw new DesignProblems(problems);
    return corner.side === 'right' ? plates.map(mirrored) : plates;
  } finally {
    modeller.release();
  }
}

/** The plate of the other side of the vehicle: its left and right exchanged, viewed from the same face. */
function mirrored(plate: FlatPlate): FlatPlate {
  const flip = ([x, y]: Point2): Point2 => [-x, y];
  return {
    ...plate,
    outline: mappedLoop(plate.outline, flip, true),
    openings: plate.openings.map(({ loop, use }) => ({ loop: mappedLoop(loop, flip, true), use })),
    holes: plate.holes.map((hole) => ({ ...hole, at: flip(hole.at) })),
    marks: plate.marks.map(({ at: [from, to], label }) => ({
      at: to === undefined ? [flip(from)] : [flip(from), flip(to)],
      label,
    })),
    bends: plate.bends.map((bend) => ({
      ...bend,
      from: flip(bend.from),
      to: flip(bend.to),
      beyond: flip(bend.beyond),
    })),
  };
}
