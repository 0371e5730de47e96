import { describe, expect, it } from 'vitest';
import { applyPoint } from '../../src/math/rigid.ts';
import { range } from '../../src/math/taylorModel.ts';
import { movedPoint } from '../../src/math/taylorVec.ts';
import { inputAt } from '../../src/mechanism/assemble.ts';
import { routeTo, solvePose } from '../../src/mechanism/solvePose.ts';
import { divideAtLockOuts } from '../../src/proof/proveLockedOut.ts';
import { lockingCorner } from '../oracles/lockingCorner.ts';
import { between, mulberry32 } from '../oracles/random.ts';
import { shapeCorner, sweepOf } from './shapeCorner.ts';

/** Corners whose mechanism locks out within their travel and steering lock. */
const SEEDS = [24, 29, 40];
const POSES_OF_CELL = 4;
/** As in the tests of the enclosure: residual of the solver plus rounding. */
const SOLVED_MM = 1e-8;

/** Most positions are at the ends of a cell or just inside, some anywhere in it: -1 to +1. */
function place(random: () => number): number {
  const inside = 10 ** between(random, -9, -0.3);
  const kind = random();
  if (kind < 0.25) return -1;
  if (kind < 0.5) return 1;
  if (kind < 0.7) return -1 + inside;
  return kind < 0.9 ? 1 - inside : between(random, -1, 1);
}

describe.each(SEEDS)('the rectangle of travel and steer divided at a lock-out, corner %i', (seed) => {
  const setup = shapeCorner(lockingCorner(seed), [], { travelSteps: 11, steerSteps: 21 });
  const { mechanism, travelMm: steps } = setup;
  const { cells, lockedOut } = divideAtLockOuts(setup, sweepOf(setup));

  it('has cells in which the solver reaches every pose on the same branch', () => {
    const random = mulberry32(seed);
    expect(cells.length).toBeGreaterThan(100);
    for (const cell of cells) {
      for (let k = 0; k < POSES_OF_CELL; k++) {
        const travelMm = cell.travelMm + place(random) * cell.travelHalfMm;
        const steer = cell.steer + place(random) * cell.steerHalf;
        const where = `travel ${travelMm} mm, steer ${steer}`;
        const pose = solvePose(mechanism, travelMm, steer);
        if (pose.kind !== 'solved' || cell.carriers === undefined) throw new Error(`${where}: ${pose.kind}`);
        const { tieRodOuter } = mechanism.hardpoints;
        const model = movedPoint(cell.carriers.upright, tieRodOuter);
        applyPoint(pose.carriers.upright, tieRodOuter).forEach((x, c) => {
          const { low, high } = range(model[c]);
          expect(x, where).toBeGreaterThanOrEqual(low - SOLVED_MM);
          expect(x, where).toBeLessThanOrEqual(high + SOLVED_MM);
        });
      }
    }
  });

  it('has locked-out parts that contain every unreachable pose', () => {
    const random = mulberry32(seed);
    let unreached = 0;
    for (let k = 0; k < 400; k++) {
      const travelMm = between(random, steps[0], steps[steps.length - 1]);
      const steer = between(random, -1, 1);
      if (routeTo(mechanism, travelMm, inputAt(mechanism, steer)).reached) continue;
      unreached += 1;
      const isLeftOut = lockedOut.some(
        (part) =>
          part.travelMm[0] <= travelMm &&
          travelMm <= part.travelMm[1] &&
          part.steer[0] <= steer &&
          steer <= part.steer[1],
      );
      expect(isLeftOut, `travel ${travelMm} mm, steer ${steer}`).toBe(true);
    }
    expect(unreached).toBeGreaterThan(0);
  });
});
