import { describe, expect, it } from 'vitest';
import { boundsOf, type Point, placesOf, type Sketch, wayOf } from '../../../src/app/bench/sketch/sketch.ts';
import { sketchOf } from '../../../src/app/bench/sketch/sketchOf.ts';
import { valueAt } from '../../../src/design/path.ts';
import type { Corner, Entry, PartKind } from '../../../src/design/schema.ts';
import { applyPoint, invert } from '../../../src/math/rigid.ts';
import { distance, type Vec3 } from '../../../src/math/vec.ts';
import { buildSolids } from '../../../src/solids/catalogue.ts';
import type { Solid } from '../../../src/solids/solid.ts';
import { axialStack, vehicleFromWheelAxis } from '../../../src/solids/wheelFrame.ts';
import { byBackspacing, designOf, read, withAll } from './wholeCorner.ts';

/** A dimension stands beside its part by no more than this, mm. */
const BESIDE_MM = 35;

/** What one of a field that is no length measures, mm. */
function mmPerOne(corner: Corner, part: number, field: string): number | undefined {
  // A rim's diameter code is its diameter in inches, a brace stands a fraction of the way from a pivot to the joint.
  if (field === 'diameterCode') return 25.4;
  const entry = corner.parts[part];
  if (field !== 'brace.at' || entry.kind !== 'controlArm') return undefined;
  const { lowerArmRear, lowerJoint, upperArmRear, upperJoint } = corner.suspension.hardpoints;
  return entry.arm === 'lower' ? distance(lowerArmRear, lowerJoint) : distance(upperArmRear, upperJoint);
}

/**
 * How far a dimension reaches beyond its part at ride height, mm: to the end of a tool, to where a damper's far mount stands
 * when it is open.
 */
function beyondPartMm({ parts, suspension }: Corner, part: number, field: string): number {
  const entry = parts[part];
  if (entry.kind === 'bolts' && /^(tool|drive|handle|swing)/.test(field))
    return (entry.toolLength ?? 0) + (entry.driveLength ?? 0);
  if (field !== 'openLength' || entry.kind !== 'damper' || suspension.damper === undefined) return 0;
  const { chassisMount, armMount } = suspension.damper;
  return (entry.openLength ?? 0) - distance(chassisMount, armMount);
}

/** How far a place is outside the box that holds solids at ride height. */
function outsideMm(solids: readonly Solid[], place: Vec3): number {
  const off = place.map((at, axis) => {
    const along = solids.flatMap(({ mesh }) => [...mesh.positions].filter((_, i) => i % 3 === axis));
    const [low, high] = along.reduce(([l, h], one) => [Math.min(l, one), Math.max(h, one)], [at, at]);
    const [least, most] = along.reduce(
      ([l, h], one) => [Math.min(l, one), Math.max(h, one)],
      [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY],
    );
    return Math.max(least - low, high - most);
  });
  return Math.hypot(...off);
}

/** How far a chain of even steps round a circle turns: each two steps meet at the angle of one. */
function turnDeg(way: readonly Point[]): number {
  const headings = way.slice(1).map(([x, y], k) => Math.atan2(y - way[k][1], x - way[k][0]));
  const bends = headings.slice(1).map((heading, k) => {
    const bend = heading - headings[k];
    return bend - 2 * Math.PI * Math.round(bend / (2 * Math.PI));
  });
  const bent = Math.abs(bends.reduce((sum, bend) => sum + bend, 0));
  return ((bent * headings.length) / bends.length) * (180 / Math.PI);
}

describe.each([
  ['by its offset', withAll()],
  ['by its backspacing', byBackspacing()],
])('sketches of a corner whose wheel is placed %s', (_, source) => {
  const { corner } = designOf(source);
  const sketched = corner.parts.map(({ id, kind }, part) => [id, kind, part] as const);
  it.each(sketched)('%s, a %s: each dimension is drawn as long as it is', (_id, kind, part) => {
    const sketch = sketchOf(corner, part);
    expect(sketch?.outlines.length).toBeGreaterThan(0);
    expect(sketch?.dimensions.length).toBeGreaterThan(0);
    const fields = sketch?.dimensions.map(({ field }) => field) ?? [];
    expect(new Set(fields).size).toBe(fields.length);
    for (const dimension of sketch?.dimensions ?? []) {
      const { field, from, to, via, view = 0 } = dimension;
      const value = valueAt(corner, ['parts', part, ...field.split('.')]);
      if (typeof value !== 'number') throw new Error(`${field} is no field of a ${kind}`);
      expect(via !== undefined, field).toBe(/Deg$/.test(field));
      const drawn =
        via === undefined ? Math.hypot(to[0] - from[0], to[1] - from[1]) : turnDeg(wayOf(dimension));
      expect(drawn, field).toBeCloseTo(Math.abs(value) * (mmPerOne(corner, part, field) ?? 1), 9);
      expect(sketch?.views[view], field).toBeDefined();
    }
  });

  it('dimensions lie on or beside their part in the vehicle', async () => {
    const solids = await buildSolids(corner, 0.5);
    for (const [id, , part] of sketched) {
      const sketch = sketchOf(corner, part);
      const mine = solids.filter(({ partIndex }) => partIndex === part);
      for (const dimension of sketch?.dimensions ?? []) {
        const places = placesOf(sketch as Sketch, dimension);
        expect(distance(places[0], places[places.length - 1]), `${id} ${dimension.field}`).toBeCloseTo(
          Math.hypot(dimension.to[0] - dimension.from[0], dimension.to[1] - dimension.from[1]),
          9,
        );
        const off = places.map((place) => outsideMm(mine, place));
        // A radius begins at the wheel axis, a turn straight above it, what is left bare of a rod at its joint.
        const worst = /[rR]adius$|^endGap$|Deg$/.test(dimension.field) ? Math.min(...off) : Math.max(...off);
        expect(worst, `${id} ${dimension.field}`).toBeLessThan(
          BESIDE_MM + beyondPartMm(corner, part, dimension.field),
        );
      }
    }
  });
});

it('dimensions about the wheel axis end as far from it, and as deep, as they measure', () => {
  const corner = read(byBackspacing());
  const stack = axialStack(corner);
  const wheelFromVehicle = invert(vehicleFromWheelAxis(corner.suspension));
  const ends = (kind: PartKind, field: string) => {
    const part = corner.parts.findIndex((one) => one.kind === kind);
    const sketch = sketchOf(corner, part) as Sketch;
    const dimension = sketch.dimensions.find((one) => one.field === field);
    if (dimension === undefined) throw new Error(`${kind} has no ${field}`);
    return placesOf(sketch, dimension).map((place) => {
      const [x, y, z] = applyPoint(wheelFromVehicle, place);
      const clockDeg = (Math.atan2(-x, z) * 180) / Math.PI;
      return { radius: Math.hypot(x, z), depth: y - stack.hubFaceY, clockDeg };
    });
  };
  // A clocking is told from straight above, toward the rear.
  for (const kind of ['caliper', 'hub'] as const) {
    const clocked = ends(kind, 'clockingDeg').map(({ clockDeg }) => clockDeg);
    const part = corner.parts.find((one) => one.kind === kind) as Entry<'caliper' | 'hub'>;
    expect(part.clockingDeg).not.toBe(0);
    expect(clocked[0]).toBeCloseTo(0, 9);
    expect(clocked.at(-1)).toBeCloseTo(part.clockingDeg, 9);
  }
  for (const { radius } of ends('rotor', 'diameter')) expect(radius).toBeCloseTo(155, 9);
  const rotor = stack.rotorFaces(corner.parts.find(({ kind }) => kind === 'rotor') as Entry<'rotor'>);
  const depths = (kind: PartKind, field: string) =>
    ends(kind, field)
      .map(({ depth }) => depth)
      .toSorted((a, b) => a - b);
  const expectDepths = (found: number[], wanted: number[]) =>
    wanted.forEach((mm, i) => {
      expect(found[i]).toBeCloseTo(mm, 9);
    });
  expectDepths(depths('rotor', 'thickness'), [rotor.inboard, rotor.outboard]);
  expectDepths(depths('caliper', 'body.inboardDepth'), [rotor.inboard - 68, rotor.inboard]);
  expectDepths(depths('caliper', 'body.outboardDepth'), [rotor.outboard, rotor.outboard + 40]);
  expectDepths(depths('hub', 'mountDepth'), [-75, 0]);
  expectDepths(depths('upright', 'plateThickness'), [stack.uprightFaceDepth - 12, stack.uprightFaceDepth]);
  expectDepths(depths('wheel', 'backspacing'), [stack.wheelFaceDepth - 139.7, stack.wheelFaceDepth]);
  expect(ends('caliper', 'body.outerRadius').map(({ radius }) => Math.round(radius))).toEqual([0, 186]);
});

it('a wheel placed by its backspacing has its inboard edge there', () => {
  const corner = read(byBackspacing());
  const part = corner.parts.findIndex(({ kind }) => kind === 'wheel');
  const sketch = sketchOf(corner, part);
  const depths = sketch?.outlines.flat().map(([, y]) => y) ?? [];
  // 5 1/2 in.
  expect(Math.min(...depths)).toBeCloseTo(-139.7, 9);
  expect(boundsOf(sketch as Sketch)[2]).toBeLessThan(-139.7);
});
