import { describe, expect, it } from 'vitest';
import { bendLengths } from '../../../src/solids/flatPlates/bend.ts';

describe('lengths of a bend', () => {
  it('are those of a published example: 90°, inside radius and thickness 0.125 in, K 0.44, allowance 0.2827 in', () => {
    // calcady.com/trade/welding/bend-allowance, worked example.
    const { allowanceMm } = bendLengths(Math.PI / 2, 0.125, { radiusMm: 0.125, kFactor: 0.44 });
    expect(allowanceMm).toBeCloseTo(0.2827, 4);
  });

  it('have the tangents meet in the middle plane at the radius of the middle, for 90°', () => {
    expect(bendLengths(-Math.PI / 2, 4, { radiusMm: 6, kFactor: 0.5 }).setbackMm).toBeCloseTo(8, 12);
  });

  it('are zero for a sharp fold', () => {
    expect(bendLengths(0.7, 4, undefined)).toEqual({ setbackMm: 0, allowanceMm: 0 });
  });
});
