import { describe, expect, it } from 'vitest';
import { keyDimension, LOOKS } from '../../../src/app/state/looks.ts';
import { minimalCorner } from '../../design/fixtures.ts';
import { readDesign } from '../../design/readDesign.ts';

const linear = (hex: string): number[] =>
  [1, 3, 5].map((at) => {
    const c = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
    return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
  });

/** OKLab lightness and two colour components: Björn Ottosson, "A perceptual color space for image processing" (2020). */
function okLab(hex: string): [number, number, number] {
  const [r, g, b] = linear(hex);
  const l = Math.cbrt(0.4122214708 * r + 0.5363325363 * g + 0.0514459929 * b);
  const m = Math.cbrt(0.2119034982 * r + 0.6806995451 * g + 0.1073969566 * b);
  const s = Math.cbrt(0.0883024619 * r + 0.2817188376 * g + 0.6299787005 * b);
  return [
    0.2104542553 * l + 0.793617785 * m - 0.0040720468 * s,
    1.9779984951 * l - 2.428592205 * m + 0.4505937099 * s,
    0.0259040371 * l + 0.7827717662 * m - 0.808675766 * s,
  ];
}

describe('colours of the parts', () => {
  it('have equal lightness, except the tyre', () => {
    const tones = Object.entries(LOOKS).filter(([kind]) => kind !== 'tyre');
    expect(tones.length).toBeGreaterThan(10);
    for (const [kind, { tone }] of tones) expect(okLab(tone)[0], kind).toBeCloseTo(0.64, 2);
  });

  it('differ between kinds, except tube, box and plate', () => {
    // 0.02 in OKLab is about the smallest difference that is visible side by side: common practice, no source.
    const kinds = Object.entries(LOOKS).filter(([kind]) => !['tube', 'box', 'plate'].includes(kind));
    for (const [i, [kind, { tone: hex }]] of kinds.entries())
      for (const [other, { tone: otherHex }] of kinds.slice(i + 1)) {
        const to = okLab(otherHex);
        const apart = Math.hypot(...okLab(hex).map((value, k) => value - to[k]));
        expect(apart, `${kind} and ${other}`).toBeGreaterThan(0.022);
      }
  });
});

const { inputs, corner } = readDesign(minimalCorner());
const partOf = (id: string) => corner.parts.findIndex((part) => part.id === id);

describe('the key dimension', () => {
  const of = (id: string, kind: 'rotor' | 'tyre' | 'damperRod' | 'bearingHousing', label: string) =>
    keyDimension(inputs, { partIndex: partOf(id), kind, label }, 'mm', 'mm');

  it('is that of the solid, not of its part', () => {
    expect(of('rotor', 'rotor', 'Rotor')).toBe('Ø 310 mm');
    expect(of('damper', 'damperRod', 'Damper rod')).toBe('Ø 14 mm');
    expect(of('hub', 'bearingHousing', 'Housing')).toBe('Ø 80 mm');
  });

  it('omits the tolerance and keeps the unit', () => {
    const path = `parts[${partOf('rotor')}].diameter`;
    const typed = inputs.map((input) => (input.path === path ? { ...input, typed: '12 1/4 ±1/32' } : input));
    const rotor = { partIndex: partOf('rotor'), kind: 'rotor' as const, label: 'Rotor' };
    expect(keyDimension(typed, rotor, 'mm', 'in')).toBe('Ø 12 1/4 in');
  });

  it('is empty if the label contains it', () => {
    expect(of('tyre', 'tyre', 'Tyre')).toBe('245/65R17');
    expect(of('tyre', 'tyre', 'Tyre 245/65R17')).toBe('');
  });
});
