import { escapeHtml } from '../escape.ts';
import { INK } from './ink.ts';
import type { Point } from './ontoScreen.ts';
import { type Box, boxAround } from './path.ts';

/** Widths of lines on paper, mm: the group 0.35 with its narrow line of half the width, ISO 128-2 (from memory). */
export const WIDE_MM = 0.35;
export const NARROW_MM = 0.18;
/** Size of the font, mm. Capitals and digits of Roboto are 0.71 of it high: 2.1 mm. */
export const TEXT_MM = 3;

/** Dashes of a centre line on paper, mm: long dash and dot. */
export const CENTRE_DASHES = '5 0.8 0.5 0.8';

/** A coordinate on paper, to 0.001 mm. */
export const coordinate = (mm: number): string => `${Math.round(mm * 1000) / 1000 || 0}`;
export const place = ([x, y]: Point): string => `${coordinate(x)} ${coordinate(y)}`;
export const moved = ([x, y]: Point, [dx, dy]: Point, by: number): Point => [x + by * dx, y + by * dy];

/** Width of a letter in sizes of the font, for Roboto and fonts like it; rather more than less. */
function letterWidth(letter: string): number {
  if (/[.,:;'|!il()[\] ]/.test(letter)) return 0.33;
  if (/[MWmw@%]/.test(letter)) return 0.92;
  if (letter.charCodeAt(0) >= 0x1100) return 1;
  return /\p{Lu}/u.test(letter) ? 0.68 : 0.58;
}

/** Width of bold text, in widths of plain text. */
export const BOLD = 1.06;

/** Estimated width of a text, mm. */
export const textWidth = (words: string, sizeMm = TEXT_MM): number =>
  [...words].reduce((sum, letter) => sum + letterWidth(letter), 0) * sizeMm;

/** The text, or as much of it as fits a width, with an ellipsis. */
export function fitted(words: string, widthMm: number, sizeMm = TEXT_MM): string {
  if (textWidth(words, sizeMm) <= widthMm) return words;
  const letters = [...words];
  while (letters.length > 0 && textWidth(`${letters.join('')}…`, sizeMm) > widthMm) letters.pop();
  return `${letters.join('').trimEnd()}…`;
}

export interface TextStyle {
  sizeMm?: number;
  anchor?: 'start' | 'middle' | 'end';
  bold?: boolean;
  /** Direction of the line of text, degrees clockwise. */
  turnDeg?: number;
  /** Paper behind the text hides the lines that it crosses. */
  hides?: boolean;
}

/** Corners of the area that a text takes. */
export function textArea(words: string, at: Point, style: TextStyle): Point[] {
  const { sizeMm = TEXT_MM, anchor = 'start', bold = false, turnDeg = 0 } = style;
  const width = textWidth(words, sizeMm) * (bold ? BOLD : 1);
  const left = anchor === 'start' ? 0 : anchor === 'middle' ? -width / 2 : -width;
  const [cos, sin] = [Math.cos((turnDeg * Math.PI) / 180), Math.sin((turnDeg * Math.PI) / 180)];
  const turned = (x: number, y: number): Point => [at[0] + cos * x - sin * y, at[1] + sin * x + cos * y];
  const [top, bottom] = [-0.8 * sizeMm, 0.22 * sizeMm];
  return [turned(left, top), turned(left + width, top), turned(left + width, bottom), turned(left, bottom)];
}

/** Collects the SVG of a drawing on paper, mm to the right and mm down, and its extent. Texts come on top of all lines. */
export class Ink {
  private readonly marks: string[] = [];
  private readonly texts: string[] = [];
  private readonly reached: Point[] = [];
  private readonly taken: (readonly Point[])[] = [];

  get svg(): string {
    return [...this.marks, ...this.texts].join('\n');
  }

  get box(): Box {
    return boxAround(this.reached);
  }

  /** Adds points to the extent. */
  reach(...points: Point[]): void {
    this.reached.push(...points);
  }

  /** Adds a convex area that `isTaken` tests against. */
  take(corners: readonly Point[]): void {
    this.taken.push(corners);
  }

  /** Whether a convex area meets one that is taken, such as a text. */
  isTaken(corners: readonly Point[]): boolean {
    return this.taken.some((other) => meet(corners, other));
  }

  /** Adds SVG whose extent is not more than what else is drawn. */
  mark(svg: string): void {
    this.marks.push(svg);
  }

  /** Lines through points, one after the other. `dashes`: lengths of dashes and gaps, mm; solid if left out. */
  line(
    points: readonly Point[],
    { widthMm = NARROW_MM, dashes }: { widthMm?: number; dashes?: string } = {},
  ): void {
    this.reach(...points);
    const dashed = dashes === undefined ? '' : ` stroke-dasharray="${dashes}"`;
    this.marks.push(
      `<path d="M${points.map(place).join('L')}" fill="none" stroke="${INK}" stroke-width="${widthMm}"${dashed}/>`,
    );
  }

  /** A closed filled outline. */
  fill(points: readonly Point[]): void {
    this.reach(...points);
    this.marks.push(`<path d="M${points.map(place).join('L')}Z" fill="${INK}"/>`);
  }

  rect(from: Point, to: Point, widthMm = NARROW_MM): void {
    this.line([from, [to[0], from[1]], to, [from[0], to[1]], from], { widthMm });
  }

  /** A text at the start, middle or end of its base line. */
  text(words: string, at: Point, style: TextStyle = {}): void {
    const { sizeMm = TEXT_MM, anchor = 'start', bold = false, hides = false, turnDeg = 0 } = style;
    const corners = textArea(words, at, style);
    this.reach(...corners);
    this.take(corners);
    if (hides)
      this.texts.push(`<path d="M${corners.map(place).join('L')}Z" fill="#fff" fill-opacity="0.85"/>`);
    const turn = turnDeg === 0 ? '' : ` transform="rotate(${coordinate(turnDeg)} ${place(at)})"`;
    this.texts.push(
      `<text x="${coordinate(at[0])}" y="${coordinate(at[1])}" font-size="${sizeMm}" text-anchor="${anchor}"${bold ? ' font-weight="bold"' : ''}${turn} fill="${INK}">${escapeHtml(words)}</text>`,
    );
  }
}

/** Whether two convex areas meet: no line along a side of either is between them. */
function meet(one: readonly Point[], other: readonly Point[]): boolean {
  const isBetween = ([a, b]: readonly [Point, Point]) => {
    const normal: Point = [b[1] - a[1], a[0] - b[0]];
    const span = (corners: readonly Point[]) => {
      const heights = corners.map(([x, y]) => x * normal[0] + y * normal[1]);
      return [Math.min(...heights), Math.max(...heights)];
    };
    const [p, q] = [span(one), span(other)];
    return p[1] < q[0] || q[1] < p[0];
  };
  const sides = (corners: readonly Point[]) =>
    corners.map((corner, i) => [corner, corners[(i + 1) % corners.length]] as const);
  return ![...sides(one), ...sides(other)].some(isBetween);
}
