import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { describe, expect, it } from 'vitest';

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

const sheet = readFileSync(resolve(import.meta.dirname, '../../../src/app/styles/tokens.css'), 'utf8');
function theme(selector: string): Record<string, string> {
  const block = sheet.slice(sheet.indexOf(selector)).split('}')[0];
  return Object.fromEntries(
    [...block.matchAll(/--([\w-]+): (#[0-9a-f]{6})/g)].map(([, name, hex]) => [name, hex]),
  );
}

describe.each([
  ['light', ':root {'],
  ['dark', ':root[data-theme="dark"] {'],
])('the %s theme', (_, selector) => {
  const colours = theme(selector);
  const text = ['ink', 'soft', 'touch', 'tight', 'clear', 'accent'];
  const grounds = ['sheet', 'paper', 'bench'];

  it.each(text)('gives %s a contrast of 4.5 to 1 or more (WCAG 2.2, criterion 1.4.3, AA)', (name) => {
    for (const ground of grounds)
      expect(contrast(colours[name], colours[ground]), ground).toBeGreaterThanOrEqual(4.5);
  });

  it('gives text on the tint of the selection a contrast of 4.5 to 1 or more', () => {
    for (const name of text)
      expect(contrast(colours[name], colours['accent-faint']), name).toBeGreaterThanOrEqual(4.5);
  });

  it('gives the text of the main button and of the rules a contrast of 4.5 to 1 or more', () => {
    expect(contrast(colours['on-accent'], colours.accent)).toBeGreaterThanOrEqual(4.5);
    expect(contrast(colours.soft, colours.steel)).toBeGreaterThanOrEqual(4.5);
  });

  it('gives marks a contrast of 3 to 1 or more (criterion 1.4.11)', () => {
    expect(contrast(colours['tight-mark'], colours.sheet)).toBeGreaterThanOrEqual(3);
    expect(contrast(colours.touch, colours.sheet)).toBeGreaterThanOrEqual(3);
  });
});
