import { describe, expect, it } from 'vitest';
import {
  branchOf,
  type Circle,
  cosineRate,
  meetCircleSphere,
  meetingCosine,
} from '../../src/math/circleSphere.ts';
import { NUMBERS } from '../../src/math/numbers.ts';
import {
  addScaled,
  cross,
  distance,
  dot,
  normalize,
  perpendicular,
  sub,
  type Vec3,
} from '../../src/math/vec.ts';
import { between, mulberry32 } from '../oracles/random.ts';

const meet = (circle: Circle, sphereCentre: Vec3, sphereRadius: number, branch: number) => {
  const meeting = meetCircleSphere(NUMBERS, circle, sphereCentre, sphereRadius, branch);
  return { meeting, point: meeting.point, cosine: meetingCosine(meeting) };
};

const randomPoint = (random: () => number): Vec3 => [
  between(random, -500, 500),
  between(random, -500, 500),
  between(random, -500, 500),
];

describe('circle and sphere', () => {
  it('finds (3, 4, +-12) for three spheres of 13 about (0,0,0), (6,0,0), (0,8,0): 3^2 + 4^2 + 12^2 = 13^2', () => {
    // The first two intersect in the circle about (3,0,0), perpendicular to X, of radius sqrt(13^2 - 3^2).
    const circle: Circle = { centre: [3, 0, 0], axis: [1, 0, 0], radius: Math.sqrt(160) };
    const above = meet(circle, [0, 8, 0], 13, 1).point;
    const below = meet(circle, [0, 8, 0], 13, -1).point;
    for (const [i, c] of [3, 4, 12].entries()) expect(above?.[i]).toBeCloseTo(c, 12);
    for (const [i, c] of [3, 4, -12].entries()) expect(below?.[i]).toBeCloseTo(c, 12);
  });

  it('gives a cosine above 1 for too small a sphere, below -1 for too large a one, +-1 at a touch', () => {
    const circle: Circle = { centre: [0, 0, 0], axis: [0, 0, 1], radius: 3 };
    expect(meet(circle, [10, 0, 0], 6, 1)).toMatchObject({
      cosine: (100 + 9 - 36) / 60,
      point: undefined,
    });
    expect(meet(circle, [10, 0, 0], 14, 1)).toMatchObject({
      cosine: (100 + 9 - 196) / 60,
      point: undefined,
    });
    expect(meet(circle, [10, 0, 0], 7, 1).cosine).toBe(1);
    expect(meet(circle, [10, 0, 0], 13, 1).cosine).toBe(-1);
    expect(meet(circle, [0, 0, 4], 5, 1).point).toBeUndefined();
  });

  it('finds a point on both, on the requested branch: random circles and spheres', () => {
    for (let seed = 1; seed <= 500; seed++) {
      const random = mulberry32(seed);
      const axis = normalize(randomPoint(random));
      const centre = randomPoint(random);
      const radius = between(random, 20, 400);
      const out = perpendicular(axis);
      const angle = between(random, -Math.PI, Math.PI);
      const known = addScaled(
        addScaled(centre, out, radius * Math.cos(angle)),
        cross(axis, out),
        radius * Math.sin(angle),
      );
      const sphereCentre = randomPoint(random);
      const circle = { centre, axis, radius };
      const branch = branchOf(circle, sphereCentre, known);
      const { point } = meet(circle, sphereCentre, distance(sphereCentre, known), branch);
      const other = meet(circle, sphereCentre, distance(sphereCentre, known), -branch).point;
      if (point === undefined || other === undefined) return expect.fail(`seed ${seed}`);
      expect(distance(point, known), `seed ${seed}`).toBeLessThan(1e-6);
      for (const p of [point, other]) {
        expect(distance(p, sphereCentre), `seed ${seed}`).toBeCloseTo(distance(sphereCentre, known), 8);
        expect(distance(p, centre), `seed ${seed}`).toBeCloseTo(radius, 8);
        expect(dot(sub(p, centre), axis), `seed ${seed}`).toBeCloseTo(0, 8);
      }
      expect(branchOf(circle, sphereCentre, other), `seed ${seed}`).toBe(-branch);
    }
  });

  it('gives the slope of the cosine as its rate while everything moves', () => {
    for (let seed = 1; seed <= 100; seed++) {
      const random = mulberry32(seed);
      const [centre, centreRate, sphere, sphereRate] = [1, 2, 3, 4].map(() => randomPoint(random));
      const axis = normalize(randomPoint(random));
      const turn = normalize(randomPoint(random));
      const at = (t: number) => {
        const turned = normalize(addScaled(axis, cross(turn, axis), t));
        const circle = { centre: addScaled(centre, centreRate, t), axis: turned, radius: 150 };
        return { circle, sphereCentre: addScaled(sphere, sphereRate, t) };
      };
      const cosine = (t: number) => meet(at(t).circle, at(t).sphereCentre, 300, 1).cosine;
      const h = 1e-5;
      const slope = (cosine(h) - cosine(-h)) / (2 * h);
      const { circle, sphereCentre } = at(0);
      const { meeting } = meet(circle, sphereCentre, 300, 1);
      const rate = cosineRate(meeting, sub(sphereRate, centreRate), cross(turn, axis));
      expect(Math.abs(rate - slope) / (1 + Math.abs(slope)), `seed ${seed}`).toBeLessThan(1e-5);
    }
  });
});
