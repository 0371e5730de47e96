import type { Corner } from '../design/schema.ts';
import { builtLengthText, lengthText } from '../units/formatLength.ts';
import type { Problem } from '../units/problem.ts';

/** Smallest radius or half thickness of a joint bolt or a zone, as a multiple of the chord tolerance. */
const MIN_CHORD_TOLERANCES = 4;

/**
 * Problems of joint bolts and zones that are too small for the chord tolerance. Meshes this coarse distort joints,
 * and zones, which are shrunk by the chord error, no longer cover the intended contact.
 */
export function chordProblems({ parts, pairs, unit }: Corner, chordToleranceMm: number): Problem[] {
  const problems: Problem[] = [];
  const check = (path: string, mm: number, halfMm: number) => {
    const maxToleranceMm = halfMm / MIN_CHORD_TOLERANCES;
    if (chordToleranceMm <= maxToleranceMm) return;
    problems.push({
      path,
      found: builtLengthText(mm, unit),
      message: `is too small for a chord tolerance of ${builtLengthText(chordToleranceMm, unit)}; set the chord tolerance to ${lengthText(maxToleranceMm, unit, 'down')} or less`,
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
