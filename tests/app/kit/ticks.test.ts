import { describe, expect, it } from 'vitest';
import { engraved, ticks } from '../../../src/app/kit/ticks.ts';

describe('graduations of a rule', () => {
  it('are at whole millimetres from end to end, including zero', () => {
    const found = ticks(-60.325, 60, 600, 'mm').map(({ mm }) => mm);
    expect(found[0]).toBe(-60);
    expect(found.at(-1)).toBe(60);
    expect(found).toHaveLength(121);
    expect(found).toContain(0);
  });

  it('are at fractions of 25.4 mm in inches (inch of 25.4 mm: ISO 31-1)', () => {
    const found = ticks(-76.2, 76.2, 900, 'in');
    for (const { mm } of found) expect((mm / 25.4) * 16).toBeCloseTo(Math.round((mm / 25.4) * 16), 9);
    expect(found).toHaveLength(97);
    expect(found.filter(({ level }) => level === 2).map(({ label }) => label)).toContain('+2½');
  });

  it.each([60, 150, 400, 1200])('keep the least spacing of graduations and labels on %i px', (lengthPx) => {
    for (const unit of ['mm', 'in'] as const) {
      for (const half of [20, 45, 150, 400]) {
        const found = ticks(-half, half, lengthPx, unit);
        const pxPerMm = lengthPx / (2 * half);
        const labelled = found.filter(({ level }) => level === 2);
        if (found.length > 1)
          expect((found[1].mm - found[0].mm) * pxPerMm).toBeGreaterThanOrEqual(4.5 - 1e-9);
        if (labelled.length > 1)
          expect((labelled[1].mm - labelled[0].mm) * pxPerMm).toBeGreaterThanOrEqual(44 - 1e-9);
        expect(labelled.map(({ mm }) => mm)).toContain(0);
      }
    }
  });

  it('are the same in either direction of the rule', () => {
    expect(ticks(45, -30, 500, 'mm')).toEqual(ticks(-30, 45, 500, 'mm'));
  });

  it('are only zero on a rule of zero length', () => {
    expect(ticks(0, 0, 500, 'mm')).toEqual([{ mm: 0, level: 2, label: '0' }]);
  });

  it('are labelled as rules are engraved, with a sign', () => {
    expect([0, 0.5, -1.25, 20, -2.75].map(engraved)).toEqual(['0', '+½', '−1¼', '+20', '−2¾']);
  });
});
