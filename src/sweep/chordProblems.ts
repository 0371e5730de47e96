import type { Problem } from '../design/problem.ts';
import type { Corner } from '../design/schema.ts';
import { builtLengthText, lengthText } from '../units/formatLength.ts';

/** A circle of a joint, or a zone, is at least this many chord tolerances in radius or half its thickness. */
const LEAST_OF_CHORD = 4;

/**
 * What is too small for a chord tolerance: meshes this coarse change the shape of joints, and zones that are drawn in by
 * the chord error lose what they are there for.
 */
export function chordProblems({ parts, pairs, unit }: Corner, chordToleranceMm: number): Problem[] {
  const problems: Problem[] = [];
  const check = (path: string, mm: number, halfMm: number) => {
    const mostMm = halfMm / LEAST_OF_CHORD;
    if (chordToleranceMm <= mostMm) return;
    problems.push({
      path,
      found: builtLengthText(mm, unit),
      message: `is too small for a chord tolerance of ${builtLengthText(chordToleranceMm, unit)}; set the chord tolerance to ${lengthText(mostMm, unit, 'down')} or less`,
    });
  };
  parts.forEach((part, index) => {
    if (part.kind !== 'joint') return;
    check(`parts[${index}].boltDiameter`, part.boltDiameter, part.boltDiameter / 2);
  });
  pairs.forEach(({ zone }, index) => {
    if (zone === undefined) return;
    check(`pairs[${index}].zone.radius`, zone.radius, zone.radius);
    if (zone.shape === 'slab') check(`pairs[${index}].zone.thickness`, zone.thickness, zone.thickness / 2);
  });
  return problems;
}
