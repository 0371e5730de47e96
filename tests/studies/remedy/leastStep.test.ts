import { describe, expect, it } from 'vitest';
import { leastStep, type Tried } from '../../../src/studies/remedy/leastStep.ts';
import { cases, mulberry32 } from '../../oracles/random.ts';

/** Steps from `border` on clear, those from `built` on cannot be built. Records the tries. */
function steps(border: number, built = Number.POSITIVE_INFINITY, estimate?: (step: number) => number) {
  const tried: number[] = [];
  return {
    tried,
    tryStep: async (step: number): Promise<Tried & { step: number }> => {
      tried.push(step);
      const kind = step >= built ? 'notBuilt' : step >= border ? 'clears' : 'short';
      return { kind, step, ahead: estimate?.(step) };
    },
  };
}

describe('the least step that clears', () => {
  it('is found with the step before it short, from any first step and any estimate', async () => {
    const seed = 21;
    const random = mulberry32(seed);
    for (let n = 0; n < cases(500, 5000); n++) {
      const whole = (most: number) => 1 + Math.floor(random() * most);
      const most = whole(40);
      const border = whole(most + 1);
      const built = random() < 0.5 ? whole(most + 1) : Number.POSITIVE_INFINITY;
      const estimate = random() < 0.5 ? undefined : () => 30 * (random() - 0.5);
      const { tried, tryStep } = steps(border, built, estimate);
      const { found, stopped } = await leastStep(most, whole(most + 5), tryStep);
      const label = `seed ${seed}, case ${n}`;
      const reached = border <= most && border < built;
      expect(found?.step, label).toBe(reached ? border : undefined);
      if (reached && border > 1) expect(tried, label).toContain(border - 1);
      expect(stopped?.step, label).toBe(!reached && built <= most ? built : undefined);
      expect(new Set(tried).size, label).toBe(tried.length);
    }
  });

  it('takes two tries if the prediction is right', async () => {
    const { tried, tryStep } = steps(9, 99, (step) => 9 - step);
    await leastStep(25, 9, tryStep);
    expect(tried).toEqual([9, 8]);
  });

  it('starts at the end if the prediction is beyond it', async () => {
    const { tried, tryStep } = steps(99);
    expect(await leastStep(25, 40, tryStep)).toMatchObject({ found: undefined, stopped: undefined });
    expect(tried).toEqual([25]);
  });
});
