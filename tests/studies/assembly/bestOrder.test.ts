import { describe, expect, it } from 'vitest';
import { bestOrder } from '../../../src/studies/assembly/bestOrder.ts';
import { orderOf, type Precedence } from '../../../src/studies/assembly/order.ts';
import { mulberry32 } from '../../oracles/random.ts';
import { comes, things } from './precedences.ts';

describe('the best order of assembly', () => {
  it('takes another option where the first has no order', () => {
    // A wrench from above has the frame in its way, which the bolts hold; from below a lamp.
    const best = bestOrder(
      things({ frame: 0, lamp: 0, bolts: 1 }),
      [comes('frame', 'bolts', false)],
      [[[comes('bolts', 'frame')], [comes('bolts', 'lamp')]]],
    );
    expect(best.kept).toEqual([1]);
    expect(best.changes).toEqual([{ id: 'lamp', from: 0, to: 2 }]);
    expect(best.rings.size).toBe(0);
  });

  it('gives up the option of an earlier want for another, not the want', () => {
    // One bolt is reached once a or b comes later; b must come before the bolts of the other, which hold nothing else up.
    const best = bestOrder(
      things({ a: 0, b: 0, bolts: 1 }),
      [],
      [[[comes('bolts', 'a')], [comes('bolts', 'b')]], [[comes('a', 'bolts')]]],
    );
    expect(best.kept).toEqual([1, 0]);
  });

  it('gives up what no order has, says why, and keeps what comes after', () => {
    const best = bestOrder(
      things({ hub: 1, bolts: 1, cover: 0 }),
      [comes('hub', 'bolts', false)],
      [[[comes('bolts', 'hub')]], [[comes('bolts', 'cover')]]],
    );
    expect(best.kept).toEqual([undefined, 0]);
    expect(best.rings.get(0)?.map(({ why }) => why)).toEqual(['bolts before hub', 'hub before bolts']);
    expect(best.changes).toEqual([{ id: 'cover', from: 0, to: 2 }]);
  });

  it('random wants: as many kept, one after another, as any choice of options has', () => {
    const SEED = 5204;
    const random = mulberry32(SEED);
    let given = 0;
    for (let i = 0; i < 200; i++) {
      const all = Array.from({ length: 5 }, (_, k) => ({ id: `t${k}`, step: Math.floor(3 * random()) }));
      const any = () => `t${Math.floor(5 * random())}`;
      const option = () =>
        Array.from({ length: 1 + Math.floor(2 * random()) }, () => comes(any(), any(), random() < 0.7));
      const always = Array.from({ length: 3 }, () => comes(any(), any(), false));
      const wants = Array.from({ length: 4 }, () =>
        Array.from({ length: 1 + Math.floor(2 * random()) }, option),
      );
      const about = `seed ${SEED}, case ${i}: ${JSON.stringify({ all, always, wants })}`;
      const best = bestOrder(all, always, wants);
      // By the other road: of all subsets of wants in their turn, each with every choice of options.
      const isOrder = (kept: readonly Precedence[]) => orderOf(all, [...always, ...kept]).kind === 'found';
      const choicesOf = (these: readonly Precedence[][][]): Precedence[][] =>
        these.reduce<Precedence[][]>(
          (so, options) => so.flatMap((one) => options.map((more) => [...one, ...more])),
          [[]],
        );
      const kept: Precedence[][][] = [];
      wants.forEach((want, k) => {
        const isPossible = choicesOf([...kept, want]).some(isOrder);
        expect(best.kept[k] !== undefined, about).toBe(isPossible);
        expect(best.rings.has(k), about).toBe(!isPossible);
        if (isPossible) kept.push(want);
        else given++;
      });
      const step = new Map(best.steps.map((one) => [one.id, one.step]));
      const told = wants.flatMap((want, k) => (best.kept[k] === undefined ? [] : want[best.kept[k]]));
      for (const { earlier, later, strict } of [...always, ...told])
        expect(step.get(later), about).toBeGreaterThanOrEqual(
          (step.get(earlier) as number) + (strict ? 1 : 0),
        );
    }
    expect(given).toBeGreaterThan(30);
  });
});
