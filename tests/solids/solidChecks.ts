import { expect } from 'vitest';
import type { BuiltSolid } from '../../src/solids/build.ts';
import { roundingMm } from '../../src/solids/rounding.ts';
import { areaMm2, bounds, closedOutwardProblems, signedVolumeMm3 } from '../oracles/meshChecks.ts';
import { compareWithTruth, type Piece } from '../oracles/roundPieces.ts';

/**
 * Closed, outward, and of the volume it reports: the corners of the mesh are rounded about a point of the body, no
 * further from any of them than the body is long, so that the volume is out by no more than that times the area.
 */
export function expectSound(solid: BuiltSolid, about: string): void {
  expect(closedOutwardProblems(solid.mesh), about).toEqual([]);
  const { min, max } = bounds(solid.mesh);
  const roundingMm3 = areaMm2(solid.mesh) * roundingMm(Math.hypot(...max.map((x, i) => x - min[i])));
  expect(Math.abs(signedVolumeMm3(solid.mesh) - solid.volumeMm3), about).toBeLessThanOrEqual(roundingMm3);
}

/** The chord error it reports holds against the true body, and is no more than the tolerance asked for (and rounding). */
export function expectHonest(
  solid: BuiltSolid,
  pieces: readonly Piece[],
  { chordToleranceMm, random, about }: { chordToleranceMm: number; random: () => number; about: string },
): void {
  const { truthToMeshMm, deepestMm, proudestMm } = compareWithTruth(solid.mesh, pieces, 120, random);
  expect(solid.chordErrorMm, about).toBeLessThanOrEqual(chordToleranceMm + 1e-3);
  expect(truthToMeshMm, about).toBeLessThanOrEqual(solid.chordErrorMm);
  expect(deepestMm, about).toBeGreaterThanOrEqual(-solid.chordErrorMm);
  // Inscribed: nothing but rounding stands out of the true body.
  expect(proudestMm, about).toBeLessThanOrEqual(1e-3);
}
