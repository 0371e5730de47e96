import { escapeHtml } from '../escape.ts';
import { plain } from './path.ts';

/** Colours of the drawings; they print in black and white as well. */
export const INK = '#1d2327';
export const SOFT = '#5d666c';
export const PALE = '#e9e6dd';
export const SHEET = '#fbfaf6';
/** The two parts of a pair. */
export const FIRST = '#7c8fd6';
export const SECOND = '#e0a63f';

/** An SVG text. `size` in px. */
export const svgText = (
  x: number,
  y: number,
  words: string,
  {
    anchor = 'start',
    size = 11,
    fill = INK,
  }: { anchor?: 'start' | 'middle' | 'end'; size?: number; fill?: string } = {},
): string =>
  `<text x="${plain(x)}" y="${plain(y)}" text-anchor="${anchor}" font-size="${size}" fill="${fill}">${escapeHtml(words)}</text>`;

/** A letter or number in a circle. */
export const balloon = (x: number, y: number, word: string): string =>
  `<circle cx="${plain(x)}" cy="${plain(y)}" r="8" fill="#fff" stroke="${INK}" stroke-width="0.8"/>${svgText(x, y + 3.8, word, { anchor: 'middle' })}`;
