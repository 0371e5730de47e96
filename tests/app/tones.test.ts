import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { PART_TONES } from '../../src/app/tones.ts';

const linear = (hex: string): number[] =>
  [1, 3, 5].map((at) => {
    const c = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
    return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
  });

/** Relative luminance and contrast ratio: W3C, Web Content Accessibility Guidelines 2.2. */
const luminance = (hex: string) => {
  const [r, g, b] = linear(hex);
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
};
const contrast = (one: string, other: string) => {
  const [low, high] = [luminance(one), luminance(other)].sort((a, b) => a - b);
  return (high + 0.05) / (low + 0.05);
};

/** OKLab lightness: Björn Ottosson, "A perceptual color space for image processing" (2020). */
function lightness(hex: string): number {
  const [r, g, b] = linear(hex);
  const l = Math.cbrt(0.4122214708 * r + 0.5363325363 * g + 0.0514459929 * b);
  const m = Math.cbrt(0.2119034982 * r + 0.6806995451 * g + 0.1073969566 * b);
  const s = Math.cbrt(0.0883024619 * r + 0.2817188376 * g + 0.6299787005 * b);
  return 0.2104542553 * l + 0.793617785 * m - 0.0040720468 * s;
}

const sheet = readFileSync(resolve(import.meta.dirname, '../../src/app/styles/tokens.css'), 'utf8');
function theme(selector: string): Record<string, string> {
  const block = sheet.slice(sheet.indexOf(selector)).split('}')[0];
  return Object.fromEntries(
    [...block.matchAll(/--([\w-]+): (#[0-9a-f]{6})/g)].map(([, name, hex]) => [name, hex]),
  );
}

describe('colours of the parts', () => {
  it('are equally light, but for the tyre', () => {
    const tones = Object.entries(PART_TONES).filter(([kind]) => kind !== 'tyre');
    expect(tones.length).toBeGreaterThan(10);
    for (const [kind, hex] of tones) expect(lightness(hex), kind).toBeCloseTo(0.64, 2);
  });
});

describe.each([
  ['light', ':root {'],
  ['dark', ':root[data-theme="dark"] {'],
])('the %s theme', (_, selector) => {
  const colours = theme(selector);
  const text = ['ink', 'soft', 'touch', 'tight', 'clear', 'accent'];
  const grounds = ['sheet', 'paper', 'bench'];

  it.each(text)('sets %s so that it can be read: 4.5 to 1 (WCAG 2.2, criterion 1.4.3, AA)', (name) => {
    for (const ground of grounds)
      expect(contrast(colours[name], colours[ground]), ground).toBeGreaterThanOrEqual(4.5);
  });

  it('sets what stands on the tint of what is in hand so that it can be read', () => {
    for (const name of text)
      expect(contrast(colours[name], colours['accent-faint']), name).toBeGreaterThanOrEqual(4.5);
  });

  it('sets the words of the main button, and of the rules, so that they can be read', () => {
    expect(contrast(colours['on-accent'], colours.accent)).toBeGreaterThanOrEqual(4.5);
    expect(contrast(colours.soft, colours.steel)).toBeGreaterThanOrEqual(4.5);
  });

  it('sets marks apart from their ground: 3 to 1 (criterion 1.4.11)', () => {
    expect(contrast(colours['tight-mark'], colours.sheet)).toBeGreaterThanOrEqual(3);
    expect(contrast(colours.touch, colours.sheet)).toBeGreaterThanOrEqual(3);
  });
});
