import { expect, it } from 'vitest';
import { assemble } from '../../src/mechanism/assemble.ts';
import { prepareMechanism } from '../../src/mechanism/mechanism.ts';
import { between, mulberry32 } from '../oracles/random.ts';
import { randomCorner } from '../oracles/randomCorner.ts';

/** Step of the central differences. Their error is its square times a third derivative, plus rounding divided by it. */
const STEP = 1e-3;

it('computes the rise per mm of rack and per radian of the lower arm as the slopes of the rise', () => {
  for (let seed = 1; seed <= 30; seed++) {
    const random = mulberry32(seed);
    const m = prepareMechanism(randomCorner(seed));
    const [armRad, rackMm] = [between(random, -0.15, 0.15), between(random, -20, 20)];
    const riseAt = (rad: number, mm: number): number => {
      const { riseMm } = assemble(m, rad, mm) ?? expect.fail(`seed ${seed}: not assembled`);
      return riseMm;
    };
    const { riseRateMm, riseInputRate } = assemble(m, armRad, rackMm) ?? expect.fail(`seed ${seed}`);
    const perRad = (riseAt(armRad + STEP, rackMm) - riseAt(armRad - STEP, rackMm)) / (2 * STEP);
    const perMm = (riseAt(armRad, rackMm + STEP) - riseAt(armRad, rackMm - STEP)) / (2 * STEP);
    expect(Math.abs(perRad - riseRateMm), `seed ${seed}`).toBeLessThan(0.01);
    expect(Math.abs(perMm - riseInputRate), `seed ${seed}`).toBeLessThan(1e-7);
  }
});
