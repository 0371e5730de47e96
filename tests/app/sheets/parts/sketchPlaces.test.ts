import { beforeAll, describe, expect, it } from 'vitest';
import { placesOf } from '../../../../src/app/sheets/parts/sketch/sketch.ts';
import { sketchOf } from '../../../../src/app/sheets/parts/sketch/sketchOf.ts';
import type { Entry } from '../../../../src/design/schema.ts';
import { distance, dot, lerp, midpoint, normalize, sub, type Vec3 } from '../../../../src/math/vec.ts';
import { buildSolids } from '../../../../src/solids/catalogue.ts';
import { housingAxis } from '../../../../src/solids/jointPlace.ts';
import { drawnErrorMm, type Solid } from '../../../../src/solids/solid.ts';
import { distanceToMeshMm } from '../../../oracles/meshChecks.ts';
import { read, withAll } from './wholeCorner.ts';

const corner = read(withAll());
let solids: Solid[];
beforeAll(async () => {
  solids = await buildSolids(corner, 0.05);
});

function endsOf(id: string, field: string): [Vec3, Vec3] {
  const sketch = sketchOf(
    corner,
    corner.parts.findIndex((part) => part.id === id),
  );
  const dimension = sketch?.dimensions.find((one) => one.field === field);
  if (sketch === undefined || dimension === undefined) throw new Error(`${id} has no ${field}`);
  return placesOf(sketch, dimension) as [Vec3, Vec3];
}

describe('dimensions of small pieces end on the surface that they measure', () => {
  it.each([
    ['caliper', 'mount.boltLength', ['to']],
    ['caliper', 'bracket.thickness', ['from', 'to']],
    ['caliper', 'bracket.innerRadius', ['to']],
    ['caliper', 'bracket.width', ['from', 'to']],
    ['caliper', 'bleedScrew.length', ['to']],
    ['caliper', 'bleedScrew.diameter', ['from', 'to']],
    ['lowerArm', 'brace.diameter', ['from', 'to']],
    ['wheel', 'spokeWidth', ['from', 'to']],
    ['wheel', 'innerBarrel.0.radius', ['to']],
    ['wheel', 'innerBarrel.1.radius', ['to']],
    ['wheel', 'innerBarrel.0.depth', ['to']],
    ['wheel', 'innerBarrel.1.depth', ['to']],
  ] as const)('%s, %s', (id, field, which) => {
    const solid = solids.find((one) => one.id === id);
    if (solid === undefined) throw new Error(`no ${id}`);
    const [from, to] = endsOf(id, field);
    for (const end of which) {
      const off = distanceToMeshMm(solid.shown ?? solid.mesh, end === 'from' ? from : to);
      expect(off, end).toBeLessThanOrEqual(drawnErrorMm(solid) + 1e-3);
    }
  });

  it('the foot of the bleed screw is at its three dimensions, and the bracket starts at its inset', () => {
    const [foot] = endsOf('caliper', 'bleedScrew.length');
    for (const field of ['along', 'radius', 'depth'])
      expect(distance(endsOf('caliper', `bleedScrew.${field}`)[1], foot), field).toBeLessThan(1e-9);
    const [, tip] = endsOf('caliper', 'bleedScrew.length');
    expect(distance(midpoint(...endsOf('caliper', 'bleedScrew.diameter')), tip)).toBeLessThan(1e-9);
    expect(distance(...endsOf('caliper', 'bracket.inset'))).toBeCloseTo(2.5, 9);
    const [, inset] = endsOf('caliper', 'bracket.inset');
    const [near, far] = endsOf('caliper', 'bracket.thickness');
    expect(dot(sub(inset, near), normalize(sub(far, near)))).toBeCloseTo(0, 9);
  });

  it('the allowed tilt of a joint starts at the axis of its housing, and its ball width is along its bolt', () => {
    const entry = corner.parts.find(({ id }) => id === 'tieRodEnd') as Entry<'joint'>;
    const centre = corner.suspension.hardpoints[entry.at];
    const [from] = endsOf('tieRodEnd', 'allowedTiltDeg');
    // 0.1 forward of vertical, square to the shank.
    expect(dot(normalize(sub(from, centre)), housingAxis(corner, entry))).toBeCloseTo(1, 9);
    expect(dot(housingAxis(corner, entry), normalize(entry.boltDirection))).toBeLessThan(0.999);
    const [low, high] = endsOf('tieRodEnd', 'ballWidth');
    expect(dot(normalize(sub(high, low)), normalize(entry.boltDirection))).toBeCloseTo(1, 9);
    // The bolt is carried by the upright, the housing by the tie rod.
    const sketch = sketchOf(corner, corner.parts.indexOf(entry));
    expect(sketch?.views.map(({ carrier }) => carrier)).toEqual(['upright', 'tieRod']);
  });

  it('a brace is at its fraction of the distance from the pivot to the joint', () => {
    const { lowerArmRear, lowerArmFront, lowerJoint } = corner.suspension.hardpoints;
    const [pivot, end] = endsOf('lowerArm', 'brace.at');
    expect(distance(pivot, lowerArmRear)).toBeLessThan(1e-9);
    // 0.35 in the fixture.
    expect(distance(end, lerp(lowerArmRear, lowerJoint, 0.35))).toBeLessThan(1e-9);
    const other = lerp(lowerArmFront, lowerJoint, 0.35);
    expect(distance(midpoint(...endsOf('lowerArm', 'brace.diameter')), midpoint(end, other))).toBeLessThan(
      1e-9,
    );
  });
});
