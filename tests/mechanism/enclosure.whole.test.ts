import { describe, expect, it } from 'vitest';
import { doubleWishboneRack } from '../../src/layouts/doubleWishboneRack/layout.ts';
import { layoutOf } from '../../src/layouts/layoutOf.ts';
import { applyPoint } from '../../src/math/rigid.ts';
import { REMAINDER, range, type TaylorModel } from '../../src/math/taylorModel.ts';
import { movedPoint } from '../../src/math/taylorVec.ts';
import type { Vec3 } from '../../src/math/vec.ts';
import { inputAt } from '../../src/mechanism/assemble.ts';
import { encloseCarriers } from '../../src/mechanism/carriers.ts';
import { type Cell, encloseAssembly } from '../../src/mechanism/enclosure.ts';
import { type Mechanism, prepareMechanism, solvePose } from '../../src/mechanism/mechanism.ts';
import { between, mulberry32 } from '../oracles/random.ts';
import { randomCorner } from '../oracles/randomCorner.ts';

const CARRIERS = Object.keys(doubleWishboneRack.carriers);

const CORNERS = 25;
/**
 * Tolerance of the solved poses: 5e-10 mm of travel, and rounding at a metre. Points are up to half a metre from the
 * joints.
 */
const SOLVED_MM = 1e-8;

function armAngle(m: Mechanism, travelMm: number, steer: number): number | undefined {
  const pose = solvePose(m, travelMm, steer);
  if (pose.kind === 'unreachable') return undefined;
  return layoutOf(m).kinematics.armRad(m.linkage, pose.carriers);
}

/** Powers of x and y in the order of the coefficients. */
const POWERS = [0, 1, 2, 3, 4].flatMap((n) => Array.from({ length: n + 1 }, (_, k) => [n - k, k]));
const polynomial = (model: TaylorModel, x: number, y: number): number =>
  POWERS.reduce((sum, [i, j], k) => sum + model[k] * x ** i * y ** j, 0);

/** A cell by middle and half width of steer, on one side of straight ahead. */
function cellOf(m: Mechanism, travelMm: number, travelHalfMm: number, steer: number, half: number): Cell {
  const [a, b] = [inputAt(m, steer - half), inputAt(m, steer + half)];
  return { travelMm, travelHalfMm, input: (a + b) / 2, inputHalf: (b - a) / 2 };
}

describe('enclosures of the mechanism', () => {
  it('contain every carrier at every pose of the cell: random corners, cells and points', () => {
    let cells = 0;
    let undecided = 0;
    for (let seed = 1; seed <= CORNERS; seed++) {
      const suspension = randomCorner(seed);
      const random = mulberry32(1000 + seed);
      const damperBodyEnd = random() < 0.5 ? 'chassis' : 'arm';
      const m = prepareMechanism(suspension, { damperBodyEnd });
      for (let k = 0; k < 8; k++) {
        const size = 10 ** between(random, -2, 0);
        const travelHalfMm = 15 * size;
        const half = 0.12 * size;
        const { bump, droop } = suspension.travel;
        const travelMm = between(random, -droop + travelHalfMm, bump - travelHalfMm);
        const steer = (random() < 0.5 ? -1 : 1) * between(random, half, 1 - half);
        const middleRad = armAngle(m, travelMm, steer);
        if (middleRad === undefined) continue;
        cells += 1;
        const over = encloseAssembly(m, cellOf(m, travelMm, travelHalfMm, steer, half), middleRad);
        if (over === undefined) {
          undecided += 1;
          continue;
        }
        const carriers = encloseCarriers(m, over);
        for (let sample = 0; sample < 6; sample++) {
          const [x, y] = [between(random, -1.3, 1.3), between(random, -1.3, 1.3)].map((t) =>
            Math.max(-1, Math.min(1, t)),
          );
          const pose = solvePose(m, travelMm + x * travelHalfMm, steer + y * half);
          const where = `seed ${seed}, travel ${travelMm} +- ${travelHalfMm}, steer ${steer} +- ${half}, at ${x}, ${y}`;
          expect(pose.kind, where).toBe('solved');
          if (pose.kind !== 'solved') continue;
          const point: Vec3 = [0, 1, 2].map(
            (c) => m.hardpoints.lowerJoint[c] + between(random, -250, 250),
          ) as unknown as Vec3;
          for (const carrier of CARRIERS) {
            const model = movedPoint(carriers[carrier], point);
            const place = applyPoint(pose.carriers[carrier], point);
            for (let c = 0; c < 3; c++) {
              expect(
                Math.abs(polynomial(model[c], x, y) - place[c]),
                `${carrier} ${c}, ${where}`,
              ).toBeLessThanOrEqual(model[c][REMAINDER] + SOLVED_MM);
              const { low, high } = range(model[c]);
              expect(place[c], where).toBeGreaterThanOrEqual(low - SOLVED_MM);
              expect(place[c], where).toBeLessThanOrEqual(high + SOLVED_MM);
            }
          }
        }
      }
    }
    expect(undecided).toBeLessThan(cells / 20);
    expect(cells).toBeGreaterThan(150);
  });
});
