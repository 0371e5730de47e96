import { describe, expect, it } from 'vitest';
import { orderOf } from '../../../src/studies/assembly/order.ts';
import { mulberry32 } from '../../oracles/random.ts';
import { comes, items } from './precedences.ts';

describe('an order of assembly', () => {
  it('is the given one if nothing is blocked', () => {
    const order = orderOf(items({ plate: 0, hub: 1, bolts: 1 }), [comes('hub', 'bolts', false)]);
    expect(order).toMatchObject({ kind: 'found', changes: [] });
  });

  it('moves a blocking part to a later step, together with everything after it', () => {
    // An invented bracket is in front of the lamp's bolts, and carries a horn with bolts of its own.
    const order = orderOf(items({ frame: 0, bracket: 0, lamp: 1, lampBolts: 1, horn: 0, hornBolts: 2 }), [
      comes('lamp', 'lampBolts', false),
      comes('lampBolts', 'bracket'),
      comes('bracket', 'horn', false),
      comes('horn', 'hornBolts', false),
    ]);
    if (order.kind === 'none') throw new Error('expected an order');
    expect(order.changes).toEqual([
      { id: 'bracket', from: 0, to: 2 },
      { id: 'horn', from: 0, to: 2 },
    ]);
    expect(order.steps.map(({ id }) => id)).toEqual([
      'frame',
      'lamp',
      'lampBolts',
      'bracket',
      'horn',
      'hornBolts',
    ]);
  });

  it('reports the cycle if there is no order', () => {
    const order = orderOf(items({ hub: 1, bolts: 1, cover: 0, extra: 0 }), [
      comes('hub', 'bolts', false),
      comes('bolts', 'cover'),
      comes('cover', 'hub', false),
      comes('extra', 'hub', false),
    ]);
    if (order.kind === 'found') throw new Error('expected no order');
    expect(order.cycle.map(({ earlier, later }) => `${earlier} ${later}`)).toEqual([
      'bolts cover',
      'cover hub',
      'hub bolts',
    ]);
  });

  it('does not exist if an item blocks itself, and exists if all items of a cycle are put on together', () => {
    expect(orderOf(items({ bolts: 0 }), [comes('bolts', 'bolts')])).toMatchObject({
      kind: 'none',
      cycle: [{ earlier: 'bolts', later: 'bolts' }],
    });
    const together = [comes('wheel', 'tyre', false), comes('tyre', 'wheel', false)];
    const order = orderOf(items({ wheel: 3, tyre: 1 }), together);
    expect(order).toMatchObject({ kind: 'found', changes: [{ id: 'tyre', from: 1, to: 3 }] });
  });

  it('satisfies random precedences without moving an item later than necessary, or reports a closed cycle', () => {
    const SEED = 8101;
    const random = mulberry32(SEED);
    const counts = { found: 0, none: 0 };
    for (let i = 0; i < 300; i++) {
      const given = Array.from({ length: 6 }, (_, k) => ({ id: `t${k}`, step: Math.floor(4 * random()) }));
      const any = () => `t${Math.floor(6 * random())}`;
      const precedences = Array.from({ length: 5 }, () => comes(any(), any(), random() < 0.5));
      const order = orderOf(given, precedences);
      const about = `seed ${SEED}, case ${i}: ${JSON.stringify({ given, precedences })}`;
      counts[order.kind]++;
      if (order.kind === 'none') {
        expect(
          order.cycle.some(({ strict }) => strict),
          about,
        ).toBe(true);
        order.cycle.forEach(({ later }, k) => {
          expect(later, about).toBe(order.cycle[(k + 1) % order.cycle.length].earlier);
        });
        continue;
      }
      const step = new Map(order.steps.map((one) => [one.id, one.step]));
      const at = (id: string) => step.get(id) as number;
      for (const { earlier, later, strict } of precedences)
        expect(at(later), about).toBeGreaterThanOrEqual(at(earlier) + (strict ? 1 : 0));
      for (const { id, step: from } of given) {
        const held = precedences.filter(({ later, earlier }) => later === id && earlier !== id);
        const least = Math.max(from, ...held.map(({ earlier, strict }) => at(earlier) + (strict ? 1 : 0)));
        // Of items that are put on together, the latest sets the step.
        const together = precedences.some(({ earlier, strict }) => earlier === id && !strict);
        if (!together) expect(at(id), about).toBe(least);
      }
    }
    expect(Math.min(counts.found, counts.none)).toBeGreaterThan(30);
  });

  it('rejects a precedence of an unknown item', () => {
    expect(() => orderOf(items({ a: 0 }), [comes('a', 'b')])).toThrow(/"b" is not a part or a set of bolts/);
  });
});
