import { describe, expect, it } from 'vitest';
import { orderOf } from '../../../src/studies/assembly/order.ts';
import { mulberry32 } from '../../oracles/random.ts';
import { comes, things } from './precedences.ts';

describe('an order of assembly', () => {
  it('is the given one where nothing is in the way', () => {
    const order = orderOf(things({ plate: 0, hub: 1, bolts: 1 }), [comes('hub', 'bolts', false)]);
    expect(order).toMatchObject({ kind: 'found', changes: [] });
  });

  it('puts what blocks a bolt in a later step, and with it what comes after that', () => {
    // An invented bracket stands before the bolts of the lamp, and carries a horn with bolts of its own.
    const order = orderOf(things({ frame: 0, bracket: 0, lamp: 1, lampBolts: 1, horn: 0, hornBolts: 2 }), [
      comes('lamp', 'lampBolts', false),
      comes('lampBolts', 'bracket'),
      comes('bracket', 'horn', false),
      comes('horn', 'hornBolts', false),
    ]);
    if (order.kind === 'none') throw new Error('an order was to be found');
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

  it('says of which ring there is none', () => {
    const order = orderOf(things({ hub: 1, bolts: 1, cover: 0, extra: 0 }), [
      comes('hub', 'bolts', false),
      comes('bolts', 'cover'),
      comes('cover', 'hub', false),
      comes('extra', 'hub', false),
    ]);
    if (order.kind === 'found') throw new Error('no order was to be found');
    expect(order.cycle.map(({ earlier, later }) => `${earlier} ${later}`)).toEqual([
      'bolts cover',
      'cover hub',
      'hub bolts',
    ]);
  });

  it('has none where a thing stands in its own way, and one where a ring is of things put on together', () => {
    expect(orderOf(things({ bolts: 0 }), [comes('bolts', 'bolts')])).toMatchObject({
      kind: 'none',
      cycle: [{ earlier: 'bolts', later: 'bolts' }],
    });
    const together = [comes('wheel', 'tyre', false), comes('tyre', 'wheel', false)];
    const order = orderOf(things({ wheel: 3, tyre: 1 }), together);
    expect(order).toMatchObject({ kind: 'found', changes: [{ id: 'tyre', from: 1, to: 3 }] });
  });

  it('random precedences: every one kept and none put later than it must, or a ring that closes', () => {
    const SEED = 8101;
    const random = mulberry32(SEED);
    const seen = { found: 0, none: 0 };
    for (let i = 0; i < 300; i++) {
      const given = Array.from({ length: 6 }, (_, k) => ({ id: `t${k}`, step: Math.floor(4 * random()) }));
      const any = () => `t${Math.floor(6 * random())}`;
      const precedences = Array.from({ length: 5 }, () => comes(any(), any(), random() < 0.5));
      const order = orderOf(given, precedences);
      const about = `seed ${SEED}, case ${i}: ${JSON.stringify({ given, precedences })}`;
      seen[order.kind]++;
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
        // Of things that go together the latest sets the step of all.
        const together = precedences.some(({ earlier, strict }) => earlier === id && !strict);
        if (!together) expect(at(id), about).toBe(least);
      }
    }
    expect(Math.min(seen.found, seen.none)).toBeGreaterThan(30);
  });

  it('knows only what it was given', () => {
    expect(() => orderOf(things({ a: 0 }), [comes('a', 'b')])).toThrow(/"b" is not among/);
  });
});
