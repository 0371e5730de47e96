import { expect, it } from 'vitest';
import { boxSketch } from '../../../../src/app/sheets/parts/sketch/boxSketch.ts';
import { placesOf, type Sketch } from '../../../../src/app/sheets/parts/sketch/sketch.ts';
import type { Entry } from '../../../../src/design/schema.ts';
import { applyPoint } from '../../../../src/math/rigid.ts';
import { add, distance, length, sub, type Vec3 } from '../../../../src/math/vec.ts';
import { buildBox } from '../../../../src/parts/box/build.ts';
import { between, mulberry32 } from '../../../oracles/random.ts';
import { benchCorner, contextOf, randomPoint } from '../../../solids/benchCorner.ts';

const SEED = 7310;
const TURNS = [
  ['rollDeg', 0],
  ['pitchDeg', 1],
  ['yawDeg', 2],
] as const;

const plain = { kind: 'box', id: 'battery', allowance: 0, carrier: 'chassis' } as const;
const boxes = (): Entry<'box'>[] => {
  const random = mulberry32(SEED);
  return Array.from({ length: 40 }, () => {
    const [rollDeg, pitchDeg, yawDeg] = randomPoint(random, 360);
    const [a, b, c] = [between(random, 1, 900), between(random, 1, 900), between(random, 1, 900)];
    return { ...plain, centre: randomPoint(random, 900), size: [a, b, c], rollDeg, pitchDeg, yawDeg };
  });
};

/** A point rotated about a vehicle axis through a centre by the right-hand rule, without matrices. */
function turnedAbout(centre: Vec3, axis: 0 | 1 | 2, deg: number, place: Vec3): Vec3 {
  const from = sub(place, centre);
  const [c, s] = [Math.cos((deg * Math.PI) / 180), Math.sin((deg * Math.PI) / 180)];
  const [u, v] = [from[(axis + 1) % 3], from[(axis + 2) % 3]];
  const to = [...from];
  to[(axis + 1) % 3] = u * c - v * s;
  to[(axis + 2) % 3] = u * s + v * c;
  return add(centre, to as unknown as Vec3);
}

/** Points of a rotation arc in the vehicle. */
function wayIn(sketch: Sketch, field: string): Vec3[] {
  const dimension = sketch.dimensions.find((one) => one.field === field);
  if (dimension === undefined) throw new Error(`no ${field}`);
  return placesOf(sketch, dimension);
}

it.each(TURNS)('%s: the arc is the rotation of the box, in even steps about its centre', (field, axis) => {
  for (const box of boxes()) {
    const way = wayIn(boxSketch(box), field);
    const about = `seed ${SEED}: ${JSON.stringify(box)}`;
    const radius = distance(way[0], box.centre);
    expect(radius, about).toBeGreaterThan(0.05 * Math.max(...box.size));
    way.forEach((place, k) => {
      const wanted = turnedAbout(box.centre, axis, (box[field] * k) / (way.length - 1), way[0]);
      expect(distance(place, wanted), about).toBeLessThan(1e-9 * length(box.centre) + 1e-9 * radius);
    });
    // The arc is square to the axis.
    expect(Math.abs(way[0][axis] - box.centre[axis]), about).toBeLessThan(1e-9 * radius + 1e-9);
  }
});

it('the arcs of pitch and yaw start ahead of the centre, that of roll above it; a zero angle is a point', () => {
  const sketch = boxSketch({
    ...plain,
    centre: [10, 20, 30],
    size: [90, 50, 40],
    rollDeg: 0,
    pitchDeg: 0,
    yawDeg: 0,
  });
  for (const [field, axis] of [
    ['rollDeg', 2],
    ['pitchDeg', 0],
    ['yawDeg', 0],
  ] as const) {
    const way = wayIn(sketch, field);
    const [first, last] = [way[0], way[way.length - 1]];
    expect(distance(first, last), field).toBeLessThan(1e-12);
    const from = sub(first, [10, 20, 30]);
    expect(from[axis], field).toBeGreaterThan(10);
    expect(length(from) - from[axis], field).toBeLessThan(1e-9);
  }
});

it('the last view draws the box as it is in the vehicle', async () => {
  const context = await contextOf(benchCorner());
  for (const box of boxes()) {
    const { outlines, views } = boxSketch(box);
    const about = `seed ${SEED}: ${JSON.stringify(box)}`;
    // One face each along z, along x and rolled; two faces once pitched, three once yawed.
    expect(outlines.length, about).toBe(8);
    const { at, vehicleFromView } = views[4];
    const drawn = outlines
      .slice(5)
      .flat()
      .map(([x, y]) => applyPoint(vehicleFromView, [x - at[0], y - at[1], 0]));
    const [{ mesh }] = buildBox(box, context);
    const corners = Array.from({ length: 8 }, (_, v) => [...mesh.positions.subarray(3 * v, 3 * v + 3)]);
    for (const [x, y] of drawn)
      expect(Math.min(...corners.map((c) => Math.hypot(c[0] - x, c[1] - y))), about).toBeLessThan(1e-3);
    // From above seven of the eight corners are visible: all but the lowest.
    const seen = corners.filter((c) => drawn.some(([x, y]) => Math.hypot(c[0] - x, c[1] - y) < 1e-3));
    const lowest = corners.reduce((low, c) => (c[2] < low[2] ? c : low));
    expect(seen.length, about).toBe(7);
    expect(seen, about).not.toContain(lowest);
  }
});
