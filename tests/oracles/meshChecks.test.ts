import { describe, expect, test } from 'vitest';
import type { Mesh } from '../../src/solids/solid.ts';
import { areaMm2, bounds, closedOutwardProblems, distanceToMeshMm, signedVolumeMm3 } from './meshChecks.ts';

/** The corner of a cube of edge 6 mm, moved away from the origin. */
const tetrahedron = (): Mesh => ({
  positions: Float64Array.of(100, 50, 20, 106, 50, 20, 100, 56, 20, 100, 50, 26),
  triangles: Uint32Array.of(0, 2, 1, 0, 1, 3, 0, 3, 2, 1, 2, 3),
});

describe('the mesh checker', () => {
  test('passes a tetrahedron and measures it: volume a^3/6, area 3 a^2/2 + sqrt(3)/4 (a sqrt 2)^2', () => {
    const mesh = tetrahedron();
    expect(closedOutwardProblems(mesh)).toEqual([]);
    expect(signedVolumeMm3(mesh)).toBeCloseTo(36, 12);
    expect(areaMm2(mesh)).toBeCloseTo(54 + (Math.sqrt(3) / 4) * 72, 12);
    expect(bounds(mesh)).toEqual({ min: [100, 50, 20], max: [106, 56, 26] });
  });

  test('reports a missing triangle, a reversed triangle and an inside-out body', () => {
    const open = tetrahedron();
    open.triangles = open.triangles.slice(3);
    expect(closedOutwardProblems(open)).not.toEqual([]);
    const turned = tetrahedron();
    turned.triangles.set([0, 1, 2]);
    expect(closedOutwardProblems(turned)).not.toEqual([]);
    const insideOut = tetrahedron();
    insideOut.triangles.reverse();
    expect(closedOutwardProblems(insideOut)).toEqual(['signed volume -36 mm^3']);
  });

  test('measures the distance to a face, an edge and a corner, and from inside', () => {
    const mesh = tetrahedron();
    expect(distanceToMeshMm(mesh, [101, 51, 17])).toBeCloseTo(3, 12);
    expect(distanceToMeshMm(mesh, [103, 46, 17])).toBeCloseTo(5, 12);
    expect(distanceToMeshMm(mesh, [98, 47, 14])).toBeCloseTo(7, 12);
    expect(distanceToMeshMm(mesh, [101, 51, 20.5])).toBeCloseTo(0.5, 12);
    expect(distanceToMeshMm(mesh, [106, 56, 26])).toBeCloseTo(12 / Math.sqrt(3), 12);
  });
});
