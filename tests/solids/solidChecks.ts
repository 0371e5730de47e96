import { expect } from 'vitest';
import type { BuiltSolid } from '../../src/solids/build.ts';
import { roundingMm } from '../../src/solids/rounding.ts';
import { areaMm2, bounds, closedOutwardProblems, signedVolumeMm3 } from '../oracles/meshChecks.ts';
import { compareWithTruth, type Piece } from '../oracles/roundPieces.ts';

/**
 * Expects a solid to be closed, outward, and of its reported volume. The corners of the mesh are rounded relative to a point
 * of the body, no further from any of them than the body is long, so the volume is off by at most that rounding times the
 * area.
 */
export function expectSound(solid: BuiltSolid, about: string): void {
  expect(closedOutwardProblems(solid.mesh), about).toEqual([]);
  const { min, max } = bounds(solid.mesh);
  const roundingMm3 = areaMm2(solid.mesh) * roundingMm(Math.hypot(...max.map((x, i) => x - min[i])));
  expect(Math.abs(signedVolumeMm3(solid.mesh) - solid.volumeMm3), about).toBeLessThanOrEqual(roundingMm3);
}

/** Expects the reported chord error to bound the distance to the true body, and to be within the tolerance and rounding. */
export function expectHonest(
  solid: BuiltSolid,
  pieces: readonly Piece[],
  { chordToleranceMm, random, about }: { chordToleranceMm: number; random: () => number; about: string },
): void {
  const { truthToMeshMm, deepestMm, proudestMm } = compareWithTruth(solid.mesh, pieces, 120, random);
  expect(solid.chordErrorMm, about).toBeLessThanOrEqual(chordToleranceMm + 1e-3);
  expect(truthToMeshMm, about).toBeLessThanOrEqual(solid.chordErrorMm);
  expect(deepestMm, about).toBeGreaterThanOrEqual(-solid.chordErrorMm);
  // Inscribed: only rounding puts the mesh outside the true body.
  expect(proudestMm, about).toBeLessThanOrEqual(1e-3);
}
