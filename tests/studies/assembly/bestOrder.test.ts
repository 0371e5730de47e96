import { describe, expect, it } from 'vitest';
import { bestOrder } from '../../../src/studies/assembly/bestOrder.ts';
import { orderOf, type Precedence } from '../../../src/studies/assembly/order.ts';
import { mulberry32 } from '../../oracles/random.ts';
import { comes, items } from './precedences.ts';

describe('the best order of assembly', () => {
  it('uses another option if the first has no order', () => {
    // A wrench from above is blocked by the frame, which the bolts hold; from below it is blocked by a lamp.
    const best = bestOrder(
      items({ frame: 0, lamp: 0, bolts: 1 }),
      [comes('frame', 'bolts', false)],
      [[[comes('bolts', 'frame')], [comes('bolts', 'lamp')]]],
    );
    expect(best.kept).toEqual([1]);
    expect(best.changes).toEqual([{ id: 'lamp', from: 0, to: 2 }]);
    expect(best.cycles.size).toBe(0);
  });

  it('changes the option of an earlier requirement instead of dropping it', () => {
    // One bolt is reached if a or b comes later; the second bolt needs b before the bolts.
    const best = bestOrder(
      items({ a: 0, b: 0, bolts: 1 }),
      [],
      [[[comes('bolts', 'a')], [comes('bolts', 'b')]], [[comes('a', 'bolts')]]],
    );
    expect(best.kept).toEqual([1, 0]);
  });

  it('drops a requirement without an order, reports the cycle, and satisfies the later ones', () => {
    const best = bestOrder(
      items({ hub: 1, bolts: 1, cover: 0 }),
      [comes('hub', 'bolts', false)],
      [[[comes('bolts', 'hub')]], [[comes('bolts', 'cover')]]],
    );
    expect(best.kept).toEqual([undefined, 0]);
    expect(best.cycles.get(0)?.map(({ why }) => why)).toEqual(['bolts before hub', 'hub before bolts']);
    expect(best.changes).toEqual([{ id: 'cover', from: 0, to: 2 }]);
  });

  it('satisfies each requirement for which some choice of options exists, for random cases', () => {
    const SEED = 5204;
    const random = mulberry32(SEED);
    let given = 0;
    for (let i = 0; i < 200; i++) {
      const all = Array.from({ length: 5 }, (_, k) => ({ id: `t${k}`, step: Math.floor(3 * random()) }));
      const any = () => `t${Math.floor(5 * random())}`;
      const option = () =>
        Array.from({ length: 1 + Math.floor(2 * random()) }, () => comes(any(), any(), random() < 0.7));
      const always = Array.from({ length: 3 }, () => comes(any(), any(), false));
      const requirements = Array.from({ length: 4 }, () =>
        Array.from({ length: 1 + Math.floor(2 * random()) }, option),
      );
      const about = `seed ${SEED}, case ${i}: ${JSON.stringify({ all, always, requirements })}`;
      const best = bestOrder(all, always, requirements);
      // Reference: adds the requirements one by one, with every choice of options.
      const isOrder = (kept: readonly Precedence[]) => orderOf(all, [...always, ...kept]).kind === 'found';
      const choicesOf = (these: readonly Precedence[][][]): Precedence[][] =>
        these.reduce<Precedence[][]>(
          (so, options) => so.flatMap((one) => options.map((more) => [...one, ...more])),
          [[]],
        );
      const kept: Precedence[][][] = [];
      requirements.forEach((requirement, k) => {
        const isPossible = choicesOf([...kept, requirement]).some(isOrder);
        expect(best.kept[k] !== undefined, about).toBe(isPossible);
        expect(best.cycles.has(k), about).toBe(!isPossible);
        if (isPossible) kept.push(requirement);
        else given++;
      });
      const step = new Map(best.steps.map((one) => [one.id, one.step]));
      const chosen = requirements.flatMap((requirement, k) =>
        best.kept[k] === undefined ? [] : requirement[best.kept[k]],
      );
      for (const { earlier, later, strict } of [...always, ...chosen])
        expect(step.get(later), about).toBeGreaterThanOrEqual(
          (step.get(earlier) as number) + (strict ? 1 : 0),
        );
    }
    expect(given).toBeGreaterThan(30);
  });
});
