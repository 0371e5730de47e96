import { describe, expect, it } from 'vitest';
import { cutsOf } from '../../../../src/app/sheets/parts/sketch/cutsOf.ts';
import {
  boundsOf,
  type Point,
  placesOf,
  type Sketch,
  wayOf,
} from '../../../../src/app/sheets/parts/sketch/sketch.ts';
import { sketchOf } from '../../../../src/app/sheets/parts/sketch/sketchOf.ts';
import { valueAt } from '../../../../src/design/path.ts';
import type { Corner, Entry, PartKind } from '../../../../src/design/schema.ts';
import { applyPoint, invert } from '../../../../src/math/rigid.ts';
import { distance, type Vec3 } from '../../../../src/math/vec.ts';
import { buildSolids } from '../../../../src/solids/catalogue.ts';
import type { Solid } from '../../../../src/solids/solid.ts';
import { axialStack, vehicleFromWheelAxis } from '../../../../src/solids/wheelFrame.ts';
import { readDesign } from '../../../design/readDesign.ts';
import { byBackspacing, read, withAll } from './wholeCorner.ts';

/** Largest distance of a dimension from its part, mm. */
const BESIDE_MM = 35;

/** Length of one unit of a field that is not a length, mm. */
function mmPerOne(corner: Corner, part: number, field: string): number | undefined {
  // A rim's diameter code is in inches; a brace is at a fraction of the distance from a pivot to the joint.
  if (field === 'diameterCode') return 25.4;
  const entry = corner.parts[part];
  if (field !== 'brace.at' || entry.kind !== 'controlArm') return undefined;
  const { lowerArmRear, lowerJoint, upperArmRear, upperJoint } = corner.suspension.hardpoints;
  return entry.arm === 'lower' ? distance(lowerArmRear, lowerJoint) : distance(upperArmRear, upperJoint);
}

/**
 * Length of a dimension beyond its part at ride height, mm: to the end of a tool, or to the far mount of an open damper.
 */
function beyondPartMm({ parts, suspension }: Corner, part: number, field: string): number {
  const entry = parts[part];
  if (entry.kind === 'bolts' && /^(tool|drive|handle|swing)/.test(field))
    return (entry.toolLength ?? 0) + (entry.driveLength ?? 0);
  if (field !== 'openLength' || entry.kind !== 'damper' || suspension.damper === undefined) return 0;
  const { chassisMount, armMount } = suspension.damper;
  return (entry.openLength ?? 0) - distance(chassisMount, armMount);
}

/** Distance of a point outside the bounding box of solids at ride height. */
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

/** Total angle of a chain of even steps round a circle: two neighbouring steps differ by the angle of one. */
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
  const { corner } = readDesign(source);
  const sketched = corner.parts.map(({ id, kind }, part) => [id, kind, part] as const);
  it.each(sketched)('%s, a %s: draws each dimension at its true length', (_id, kind, part) => {
    const sketch = sketchOf(corner, part);
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

  it('places dimensions on or beside their part in the vehicle', async () => {
    const solids = await buildSolids(corner, 0.5);
    for (const [id, , part] of sketched) {
      const sketch = sketchOf(corner, part);
      const mine = solids.filter(({ partIndex }) => partIndex === part);
      const outlines = [...cutsOf(sketch as Sketch, mine).flat(), ...(sketch?.outlines ?? [])];
      expect(outlines.length, id).toBeGreaterThan(0);
      for (const dimension of sketch?.dimensions ?? []) {
        const places = placesOf(sketch as Sketch, dimension);
        expect(distance(places[0], places[places.length - 1]), `${id} ${dimension.field}`).toBeCloseTo(
          Math.hypot(dimension.to[0] - dimension.from[0], dimension.to[1] - dimension.from[1]),
          9,
        );
        const off = places.map((place) => outsideMm(mine, place));
        // A radius starts at the wheel axis, an angle straight above it, the bare length of a rod at its joint.
        const worst = /[rR]adius$|^endGap$|Deg$/.test(dimension.field) ? Math.min(...off) : Math.max(...off);
        expect(worst, `${id} ${dimension.field}`).toBeLessThan(
          BESIDE_MM + beyondPartMm(corner, part, dimension.field),
        );
      }
    }
  });
});

it('dimensions about the wheel axis end at their radius and depth', () => {
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
  // A clocking is measured from straight above, toward the rear.
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

describe('cuts through the solids of a part', () => {
  const corner = read(byBackspacing());
  const cuts = async (id: string) => {
    const part = corner.parts.findIndex((one) => one.id === id);
    const sketch = sketchOf(corner, part) as Sketch;
    const solids = (await buildSolids(corner, 0.05)).filter(({ partIndex }) => partIndex === part);
    const bounds = (view: number) =>
      boundsOf({
        outlines: cutsOf({ ...sketch, views: [sketch.views[view]] }, solids).flat(),
        axes: [],
        dimensions: [],
      });
    return { sketch, bounds };
  };
  const expectBounds = (found: readonly number[], wanted: readonly number[]) =>
    wanted.forEach((mm, i) => {
      expect(found[i]).toBeCloseTo(mm, 1);
    });

  it('show the inboard edge of a wheel at its backspacing', async () => {
    const { sketch, bounds } = await cuts('wheel');
    // 5 1/2 in; the modeller's coordinates have single precision.
    expect(bounds(0)[2]).toBeCloseTo(-139.7, 4);
    expect(boundsOf(sketch)[2]).toBeLessThan(-139.7);
  });

  it('show a tie rod between the gaps at its ends', async () => {
    const { bounds } = await cuts('tieRod');
    const { tieRodInner, tieRodOuter } = corner.suspension.hardpoints;
    const { endGap, tubeDiameter } = corner.parts.find(({ kind }) => kind === 'tieRod') as Entry<'tieRod'>;
    const span = distance(tieRodInner, tieRodOuter);
    expectBounds(bounds(0), [endGap, span - endGap, -tubeDiameter / 2, tubeDiameter / 2]);
  });

  it("show a joint's bolt in one view and its housing in the other", async () => {
    const { sketch, bounds } = await cuts('tieRodEnd');
    const entry = corner.parts.find(({ id }) => id === 'tieRodEnd') as Entry<'joint'>;
    expectBounds(bounds(0).slice(2), [-entry.boltLength / 2, entry.boltLength / 2]);
    const [beside] = sketch.views[1].at;
    const { housingDiameter, shankLength = 0, housingWidth } = entry;
    expectBounds(bounds(1), [
      beside - housingDiameter / 2,
      beside + shankLength,
      -housingWidth / 2,
      housingWidth / 2,
    ]);
  });
});
