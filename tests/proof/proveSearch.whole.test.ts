import { describe, expect, it } from 'vitest';
import { PairQuery } from '../../src/clearance/query.ts';
import { doubleWishboneRack } from '../../src/layouts/doubleWishboneRack/layout.ts';
import { applyPoint, compose, invert } from '../../src/math/rigid.ts';
import type { Vec3 } from '../../src/math/vec.ts';
import { solvePose } from '../../src/mechanism/mechanism.ts';
import { MovedBoxes } from '../../src/proof/proveBoxes.ts';
import { type PoseCell, PoseCells } from '../../src/proof/proveCells.ts';
import { type Motion, TERM } from '../../src/proof/proveMotion.ts';
import { CellSearch } from '../../src/proof/proveSearch.ts';
import { between, mulberry32 } from '../oracles/random.ts';
import { randomCorner } from '../oracles/randomCorner.ts';
import { randomShapes, shapeCorner } from '../sweep/shapeCorner.ts';

const CARRIERS = Object.keys(doubleWishboneRack.carriers);

/** Poses are solved to 5e-10 mm; points are up to a metre from their pivots. */
const SOLVED_MM = 1e-8;

/** A cell of the rectangle after random halvings. */
function randomCell(cells: PoseCells, random: () => number): PoseCell {
  const which = () => (random() < 0.5 ? 0 : 1);
  let cell = cells.whole()[which()];
  const halvings = 3 + Math.floor(9 * random());
  for (let k = 0; k < halvings; k++) {
    const halves = cell.halves(random() < 0.5 ? 'travel' : 'steer');
    if (halves === undefined) break;
    cell = halves[which()];
  }
  return cell;
}

/** A point in a cell, -1 to 1 in both directions; often on its edge or at a corner. */
const pointIn = (random: () => number): [number, number] => {
  const clamped = () => Math.max(-1, Math.min(1, between(random, -1.6, 1.6)));
  return [clamped(), clamped()];
};

function movedPoint({ terms, from, restMm, restPerMm }: Motion, p: Vec3, x: number, y: number) {
  const powers = [1, x, y, x * x, x * y, y * y];
  const point = [0, 4, 8].map((r) =>
    powers.reduce((sum, power, term) => {
      const t = TERM * term + r;
      return sum + power * (terms[t] * p[0] + terms[t + 1] * p[1] + terms[t + 2] * p[2] + terms[t + 3]);
    }, 0),
  );
  return { point, restMm: restMm + restPerMm * Math.hypot(p[0] - from[0], p[1] - from[1], p[2] - from[2]) };
}

describe('motion of one carrier in the frame of another over a cell', () => {
  it('moves points as the poses of the cell do, forward and back', () => {
    const names = CARRIERS.filter((name) => name !== 'wheel');
    let compared = 0;
    for (let seed = 1; seed <= 12; seed++) {
      const suspension = randomCorner(seed);
      const random = mulberry32(7000 + seed);
      const setup = shapeCorner(suspension, [], { travelSteps: 3, steerSteps: 3 });
      const cells = new PoseCells(setup.mechanism, -suspension.travel.droop, suspension.travel.bump);
      for (let k = 0; k < 8; k++) {
        const cell = randomCell(cells, random);
        if (cell.carriers === undefined) continue;
        const [a, b] = [
          names[Math.floor(random() * names.length)],
          names[Math.floor(random() * names.length)],
        ];
        const { forward, back } = cell.motion(a, b);
        const p = suspension.hardpoints.lowerJoint.map(
          (c) => c + between(random, -200, 200),
        ) as unknown as Vec3;
        for (let sample = 0; sample < 6; sample++) {
          const [x, y] = pointIn(random);
          const steer = cell.steer + y * cell.steerHalf;
          const pose = solvePose(setup.mechanism, cell.travelMm + x * cell.travelHalfMm, steer);
          const where = `seed ${seed}, ${b} seen from ${a}, travel ${pose.travelMm}, steer ${steer}`;
          if (pose.kind !== 'solved') throw new Error(`${where} is not reached`);
          const aFromB = compose(invert(pose.carriers[a]), pose.carriers[b]);
          for (const [motion, transform] of [
            [forward, aFromB],
            [back, invert(aFromB)],
          ] as const) {
            const { point, restMm } = movedPoint(motion, p, x, y);
            const exact = applyPoint(transform, p);
            const off = Math.hypot(point[0] - exact[0], point[1] - exact[1], point[2] - exact[2]);
            expect(off, where).toBeLessThanOrEqual(restMm + SOLVED_MM);
            compared += 1;
          }
        }
      }
    }
    expect(compared).toBeGreaterThan(800);
  });
});

describe('search of a cell', () => {
  it('never proves a distance that a pose of the cell violates', () => {
    let searches = 0;
    let proved = 0;
    for (let seed = 1; seed <= 40; seed++) {
      const suspension = randomCorner(seed);
      const random = mulberry32(9000 + seed);
      const setup = shapeCorner(suspension, randomShapes(random, suspension), {
        travelSteps: 3,
        steerSteps: 3,
      });
      const cells = new PoseCells(setup.mechanism, -suspension.travel.droop, suspension.travel.bump);
      setup.pairs.forEach(({ a, b }, p) => {
        const cell = randomCell(cells, random);
        if (cell.carriers === undefined) return;
        const bodies = setup.bodies[p];
        const [one, other] = [setup.solids[a].carrier, setup.solids[b].carrier];
        const query = new PairQuery(bodies.a, bodies.b);
        let least = Number.POSITIVE_INFINITY;
        for (let sample = 0; sample < 40; sample++) {
          const [x, y] = pointIn(random);
          const steer = cell.steer + y * cell.steerHalf;
          const pose = solvePose(setup.mechanism, cell.travelMm + x * cell.travelHalfMm, steer);
          if (pose.kind !== 'solved')
            throw new Error(`seed ${seed}, pair ${p}: a pose of an enclosed cell is not reached`);
          query.run(compose(invert(pose.carriers[one]), pose.carriers[other]), Number.POSITIVE_INFINITY);
          least = Math.min(least, query.distanceMm);
        }
        if (!(least > 1)) return;
        const where = `seed ${seed}, pair ${p}, least of the samples ${least}`;
        const search = new CellSearch(bodies.a.surface, bodies.b.surface, new MovedBoxes());
        const isProved = (boundMm: number) =>
          search.provesSeparation(cell.motion(one, other), {
            boundMm,
            maxRestMm: Number.POSITIVE_INFINITY,
            maxTrianglePairs: 1e6,
            maxEvaluations: 1e9,
          });
        expect(isProved(least + 1e-7), where).toBe(false);
        // The second call uses a hint and gives the same result.
        expect(isProved(least + 1e-7), where).toBe(false);
        searches += 1;
        if (isProved(0.9 * least)) proved += 1;
      });
    }
    expect(searches).toBeGreaterThan(80);
    // Most true bounds are proved.
    expect(proved).toBeGreaterThan(searches / 2);
  });
});
