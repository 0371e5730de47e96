import { describe, expect, it } from 'vitest';
import type { Corner } from '../../../src/design/schema.ts';
import { convexHull, doConvexMeet, type Point2 } from '../../../src/math/convex.ts';
import { clockedPlace } from '../../../src/solids/fasteners/boltHoles.ts';
import { type Arc, isInArc } from '../../../src/studies/clocking/spans.ts';
import { arcsApart, unsplitArcs } from '../../../src/studies/clocking/unsplit.ts';
import { wantedArcs } from '../../../src/studies/clocking/wants.ts';
import { minimalCorner } from '../../design/fixtures.ts';
import { readDesign } from '../../design/readDesign.ts';
import { between, mulberry32 } from '../../oracles/random.ts';

const SEED = 5301;
const deg = (rad: number) => (rad * 180) / Math.PI;

const cornerOf = (source: unknown): Corner => readDesign(source).corner;

function expectArcs(found: readonly Arc[], expected: readonly (readonly [number, number])[]): void {
  const ends = found.map(({ fromDeg, toDeg }) => [fromDeg, toDeg]).toSorted((a, b) => a[0] - b[0]);
  expect(ends.length).toBe(expected.length);
  ends.forEach(([from, to], k) => {
    expect(from).toBeCloseTo(expected[k][0], 8);
    expect(to).toBeCloseTo(expected[k][1], 8);
  });
}

/** Two bolts of a caliper at clocking 0, and a vertical bar, `half` to either side, between two heights. */
const pair = (radius: number, half: number): Point2[] =>
  [-1, 1].map((side) => [side * half, Math.sqrt(radius ** 2 - half ** 2)]);
const bar = (half: number, fromZ: number, toZ: number): Point2[] =>
  convexHull([
    [-half, fromZ],
    [half, fromZ],
    [half, toZ],
    [-half, toZ],
  ]);

describe('a plate between two bolts', () => {
  const [radius, half] = [125, 76];
  const phi = deg(Math.asin(half / radius));

  it('that extends past both splits them until the nearer one is beside its face', () => {
    const free = phi + deg(Math.asin(18 / radius));
    expectArcs(arcsApart(pair(radius, half), [bar(18, 0, 200)]), [[free, 360 - free]]);
  });

  it('that ends between them splits them until the line between them passes its end', () => {
    const middle = Math.sqrt(radius ** 2 - half ** 2);
    const tip = 110;
    const free = deg(Math.atan2(4, tip)) + deg(Math.acos(middle / Math.hypot(4, tip)));
    expectArcs(arcsApart(pair(radius, half), [bar(4, 0, tip)]), [[free, 360 - free]]);
  });

  it('that begins beyond them, or ends before the line between them, never splits them', () => {
    const middle = Math.sqrt(radius ** 2 - half ** 2);
    const whole = [{ fromDeg: -180, toDeg: 180 }];
    expect(arcsApart(pair(radius, half), [bar(4, 126, 200)])).toEqual(whole);
    expect(arcsApart(pair(radius, half), [bar(4, 0, middle - 0.5)])).toEqual(whole);
  });

  it('of two opposite plates leaves both sides allowed', () => {
    const free = phi + deg(Math.asin(18 / radius));
    const found = arcsApart(pair(radius, half), [bar(18, 0, 200), bar(18, -200, 0)]);
    expectArcs(found, [
      [-180 + free, -free],
      [free, 180 - free],
    ]);
  });
});

describe('a plate between bolts around the axis', () => {
  const square = (half: number): Point2[] => [
    [-half, half],
    [-half, -half],
    [half, -half],
    [half, half],
  ];

  it('that starts at the axis splits them at every turn', () => {
    expect(arcsApart(square(40), [bar(5, 0, 100)])).toEqual([]);
  });

  it('that is beside the axis splits them unless a side of their square is parallel to it', () => {
    const plate = convexHull([
      [45, -80],
      [51, -80],
      [51, 80],
      [45, 80],
    ]);
    // A corner is at 45 degrees from the plate's normal and 40 √2 from the axis.
    const free = 45 - deg(Math.acos(45 / (40 * Math.SQRT2)));
    const found = arcsApart(square(40), [plate]);
    expectArcs(
      found,
      [-180, -90, 0, 90]
        .map((at) => [at - free, at + free] as const)
        .map(([from, to]): readonly [number, number] => (from < -180 ? [from + 360, to + 360] : [from, to]))
        .toSorted((a, b) => a[0] - b[0]),
    );
  });
});

it(`the arcs agree at each turn with a test of all plates: seed ${SEED}`, () => {
  const random = mulberry32(SEED);
  const shape = (least: number, most: number, count: number): Point2[] => {
    const at = clockedPlace(between(random, -180, 180), [0, between(random, least, most)]);
    return convexHull(
      Array.from(
        { length: count },
        (): Point2 => [at[0] + between(random, -30, 30), at[1] + between(random, -30, 30)],
      ),
    );
  };
  let [inside, outside] = [0, 0];
  for (let trial = 0; trial < 60; trial++) {
    const bolts = shape(0, 100, 2 + Math.floor(random() * 4));
    const plates = Array.from({ length: 1 + Math.floor(random() * 3) }, () => shape(20, 120, 4));
    const arcs = arcsApart(bolts, plates);
    for (let k = 0; k < 60; k++) {
      const turn = between(random, -180, 180);
      const turned = bolts.map((bolt) => clockedPlace(turn, bolt));
      const isApart = !plates.some((plate) => doConvexMeet(turned, plate));
      expect(
        arcs.some((arc) => isInArc(arc, turn)),
        `trial ${trial}, ${turn} degrees`,
      ).toBe(isApart);
      if (isApart) inside += 1;
      else outside += 1;
    }
    for (const { fromDeg, toDeg } of arcs) expect(toDeg).toBeGreaterThan(fromDeg);
  }
  expect(Math.min(inside, outside)).toBeGreaterThan(500);
});

describe('the requirement that a plate does not split the bolts of a mount', () => {
  it("keeps a caliper's bolts on one side of a leg that is a bar at their radius", () => {
    const source = minimalCorner();
    const caliper = source.parts.find((part) => part.kind === 'caliper');
    const upright = source.parts.find((part) => part.kind === 'upright');
    if (caliper === undefined || upright === undefined) throw new Error('parts are missing');
    caliper.mount = { boltRadius: 70, boltSpacing: 60, earFace: 34 };
    Object.assign(upright, { kickOutRadius: 90, boxDepth: 40, legWidth: 50 });
    const corner = cornerOf(source);
    const [arc, ...others] = unsplitArcs(corner, { mount: 'caliper', plate: 'upperLeg' });
    expect(others).toEqual([]);
    const free = deg(Math.asin(30 / 70)) + deg(Math.asin(25 / 70));
    expect(arc.toDeg - arc.fromDeg).toBeCloseTo(360 - 2 * free, 8);
    // The upper joint is 20 mm behind the wheel's centre and 150 mm above it, with one degree of camber.
    const legDeg = (arc.fromDeg + arc.toDeg) / 2 - 180;
    expect(Math.abs(legDeg - deg(Math.atan2(20, 150)))).toBeLessThan(0.5);
  });

  it('cannot be met by four hub bolts and a boxed leg, but by a leg that leaves the pad beyond them', () => {
    const source = minimalCorner();
    const upright = source.parts.find((part) => part.kind === 'upright');
    if (upright === undefined) throw new Error('no upright');
    const wants = { unsplit: [{ mount: 'hub', plate: 'lowerLeg' } as const] };
    expect(wantedArcs(cornerOf(source), wants)).toEqual([
      { want: 'unsplit:hub:lowerLeg', about: 'hub', arcs: [{ fromDeg: -180, toDeg: 180 }] },
    ]);
    upright.boxDepth = 40;
    expect(wantedArcs(cornerOf(source), wants)).toEqual([
      { want: 'unsplit:hub:lowerLeg', about: 'hub', arcs: [] },
    ]);
  });

  it('is rejected for a missing plate', () => {
    const wanted = () =>
      wantedArcs(cornerOf(minimalCorner()), { unsplit: [{ mount: 'hub', plate: 'strake' }] });
    expect(wanted).toThrow(RangeError);
    expect(wanted).toThrow(/no plate "strake".*it has upperLeg, lowerLeg, steeringArm$/);
  });
});
