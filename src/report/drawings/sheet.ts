import type { LengthUnit } from '../figures.ts';
import { MM_PER_UNIT } from '../figures.ts';
import { PAPER_MM, type Paper } from '../pdf/paper.ts';
import type { Drawing } from './drawing.ts';
import { layOut } from './layOut.ts';
import type { Point } from './ontoScreen.ts';
import { BOLD, coordinate, fitted, Ink, moved, TEXT_MM, textWidth, WIDE_MM } from './paperInk.ts';

/** Scales, 1 to each of these: those of ISO 5455 (1, 2, 5, 10, 20, 50, 100), and 2.5, 4, 8, common practice, no source. */
const RATIOS = [1, 2, 2.5, 4, 5, 8, 10, 20, 50, 100] as const;

const FRAME_MM = 10;
/** Heights of the title block's rows. */
const ROWS_MM = [9, 8.5, 13];
const STRIP_MM = ROWS_MM.reduce((sum, mm) => sum + mm, 0);
const MARGIN_MM = 3;
const NOTE_MM = 2.6;
const NOTE_PITCH_MM = 3.9;
const SMALL_MM = 2.1;
const TITLE_MM = 4;
const CAUTION_MM = 2.4;
const CAUTION_PITCH_MM = 2.95;
/** Width of the directions in the title block. */
const DIRECTIONS_MM = 36;

/** Contents of the title block. */
export interface SheetHead {
  name: string;
  side: 'left' | 'right';
  unit: LengthUnit;
  /** Version of the program. */
  version: string;
  /** Date and time, ISO 8601. */
  date: string;
  designHash: string;
}

/** A finished sheet. Widths and heights in mm. */
export interface Sheet {
  key: Drawing['key'];
  title: string;
  widthMm: number;
  heightMm: number;
  /** Its scale is 1 to this. */
  ratio: number;
  svg: string;
}

const CAUTION = [
  'Do not cut from this sheet: cut from templates or files at true scale, and measure the parts first.',
  'Geometry only: not strength, fatigue, welds, brakes or steering safety. Your vehicle code, your scrutineers',
  'and a licensed engineer or certifier take precedence over this sheet.',
];

const ASSUMED_NOTE = '* Assumed, or depends on a value that is assumed: nobody has measured it.';
const SLANTED_NOTE = '† True length; its line is not parallel to the sheet and appears shorter.';

/** A drawing on the sheet, upright or on its side, at the largest scale that fits. `sheets`: its number, and how many. */
export function sheetOf(
  drawing: Drawing,
  head: SheetHead,
  paper: Paper,
  sheets: readonly [number, number],
): Sheet {
  const { ratio, size, ink } = bestScale(drawing, head.unit, paper);
  const [width, height] = size;
  const notes = notesOf(drawing, ink.svg, width);
  const area = areaFor(size, notes.length);
  const { box } = ink;
  const shift = [
    area.left + (area.width - box.width) / 2 - box.left,
    area.top + (area.height - box.height) / 2 - box.top,
  ].map(coordinate);
  const around = new Ink();
  around.rect([FRAME_MM, FRAME_MM], [width - FRAME_MM, height - FRAME_MM], WIDE_MM);
  drawTitle(around, drawing, head, { size, ratio, sheets });
  drawNotes(around, notes, height - FRAME_MM - STRIP_MM);
  const svg = [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}mm" height="${height}mm" viewBox="0 0 ${width} ${height}" font-family="Roboto, Arial, Helvetica, sans-serif">`,
    `<path d="M0 0H${width}V${height}H0Z" fill="#fff"/>`,
    `<g class="drawing" transform="translate(${shift.join(' ')})">`,
    ink.svg,
    '</g>',
    around.svg,
    '</svg>',
  ].join('\n');
  return { key: drawing.key, title: drawing.title, widthMm: width, heightMm: height, ratio, svg: `${svg}\n` };
}

const notesHeight = (count: number): number => (count === 0 ? 0 : count * NOTE_PITCH_MM + 1.5);

/** Lines of notes for a sheet of a width: the marks that the drawing uses, explained, and its own notes. */
function notesOf({ notes }: Drawing, svg: string, widthMm: number): string[] {
  const all = [
    ...(/\*†?<\/text>/.test(svg) ? [ASSUMED_NOTE] : []),
    ...(/†<\/text>/.test(svg) ? [SLANTED_NOTE] : []),
    ...notes,
  ];
  const room = widthMm - 2 * (FRAME_MM + MARGIN_MM);
  const lines: string[] = [];
  for (const note of all) {
    const longer = `${lines[lines.length - 1]}   ${note}`;
    if (lines.length > 0 && textWidth(longer, NOTE_MM) <= room) lines[lines.length - 1] = longer;
    else lines.push(note);
  }
  return lines;
}

/** Where the drawing can be on the sheet. */
function areaFor([width, height]: Point, notes: number) {
  const left = FRAME_MM + MARGIN_MM;
  const top = FRAME_MM + MARGIN_MM;
  return {
    left,
    top,
    width: width - 2 * left,
    height: height - 2 * top - STRIP_MM - notesHeight(notes),
  };
}

/** The largest scale at which the drawing fits the paper, and the paper's direction; the smallest one if none does. */
function bestScale(
  drawing: Drawing,
  unit: LengthUnit,
  paper: Paper,
): { ratio: number; size: Point; ink: Ink } {
  const [short, long] = PAPER_MM[paper];
  let last: { ratio: number; size: Point; ink: Ink } | undefined;
  for (const ratio of RATIOS) {
    const ink = layOut(drawing, ratio, unit);
    for (const size of [[long, short] as const, [short, long] as const]) {
      const { width, height } = areaFor(size, notesOf(drawing, ink.svg, size[0]).length);
      last = { ratio, size, ink };
      if (ink.box.width <= width && ink.box.height <= height) return last;
    }
  }
  if (last === undefined) throw new Error('there are no scales');
  return last;
}

function drawTitle(
  ink: Ink,
  drawing: Drawing,
  { name, side, unit, version, date, designHash }: SheetHead,
  { size, ratio, sheets }: { size: Point; ratio: number; sheets: readonly [number, number] },
): void {
  const { title, seen } = drawing;
  const [width, height] = size;
  const [left, right] = [FRAME_MM, width - FRAME_MM];
  const [top, bottom] = [height - FRAME_MM - STRIP_MM, height - FRAME_MM];
  const rows = [top, top + ROWS_MM[0], top + ROWS_MM[0] + ROWS_MM[1], bottom];
  for (const y of rows.slice(0, -1))
    ink.line(
      [
        [left, y],
        [right, y],
      ],
      y === top ? { widthMm: WIDE_MM } : {},
    );
  const whole = right - left;
  const cell = (row: number, from: number, to: number, label: string, words: string, big = false) => {
    const x = left + from * whole;
    const room = (to - from) * whole - 3;
    if (from > 0)
      ink.line([
        [x, rows[row]],
        [x, rows[row + 1]],
      ]);
    const wide = textWidth(words, 1) * (big ? BOLD : 1);
    const sizeMm = Math.max(NOTE_MM, Math.min(big ? TITLE_MM : TEXT_MM, Math.floor((10 * room) / wide) / 10));
    ink.text(label, [x + 1.5, rows[row] + 2.7], { sizeMm: SMALL_MM });
    ink.text(fitted(words, room / (big ? BOLD : 1), sizeMm), [x + 1.5, rows[row] + 7.2], {
      sizeMm,
      bold: big,
    });
  };
  cell(0, 0, 0.4, 'Corner', name, true);
  cell(0, 0.4, 0.72, 'Drawing', title, true);
  cell(0, 0.72, 1, 'Scale', `1:${ratio}`, true);
  drawScaleBar(ink, unit, ratio, [right - 4, rows[1] - 1.5]);
  cell(1, 0, 0.17, 'Side', `Front ${side}`);
  cell(1, 0.17, 0.3, 'Lengths in', unit === 'mm' ? 'mm' : 'inches');
  cell(1, 0.3, 0.44, 'Pose', 'Ride height');
  cell(1, 0.44, 0.58, 'Date', date.slice(0, 10));
  cell(1, 0.58, 0.74, 'Design', designHash.slice(0, 12));
  cell(1, 0.74, 0.9, 'Program', `Daylight ${version}`);
  cell(1, 0.9, 1, 'Sheet', `${sheets[0]} of ${sheets[1]}`);
  drawDirections(ink, drawing, [left + DIRECTIONS_MM / 2, rows[2] + ROWS_MM[2] / 2]);
  ink.line([
    [left + DIRECTIONS_MM, rows[2]],
    [left + DIRECTIONS_MM, bottom],
  ]);
  const room = whole - DIRECTIONS_MM - 3;
  [seen, ...CAUTION].forEach((line, i) => {
    const sizeMm = Math.min(CAUTION_MM, (CAUTION_MM * room) / textWidth(line, CAUTION_MM));
    ink.text(line, [left + DIRECTIONS_MM + 1.5, rows[2] + 3.3 + i * CAUTION_PITCH_MM], {
      sizeMm: Math.floor(sizeMm * 100) / 100,
    });
  });
}

function drawNotes(ink: Ink, notes: readonly string[], bottom: number): void {
  notes.forEach((note, i) => {
    const y = bottom - 1.7 - (notes.length - 1 - i) * NOTE_PITCH_MM;
    ink.text(note, [FRAME_MM + 3, y], { sizeMm: NOTE_MM });
  });
}

/** Two arrows with the names of the directions to the side and up. */
function drawDirections(ink: Ink, { right, up }: Drawing, [x, y]: Point): void {
  const at: Point = [x - right.sense * 6, y + up.sense * 4];
  const arrow = (sense: Point) => {
    const tip = moved(at, sense, 8);
    const across: Point = [-sense[1], sense[0]];
    const base = moved(tip, sense, -2.5);
    ink.line([at, base]);
    ink.fill([tip, moved(base, across, 0.6), moved(base, across, -0.6)]);
    return tip;
  };
  const side = arrow([right.sense, 0]);
  const top = arrow([0, -up.sense]);
  const anchor = right.sense > 0 ? 'start' : 'end';
  ink.text(right.words, [side[0] + right.sense, side[1] + 0.9], { sizeMm: NOTE_MM, anchor });
  ink.text(up.words, [top[0] + right.sense * 1.2, top[1] + (up.sense > 0 ? 2 : 0)], {
    sizeMm: NOTE_MM,
    anchor,
  });
}

/** A bar of a round length of the vehicle, at most 32 mm on paper, in five parts, from its right end. */
function drawScaleBar(ink: Ink, unit: LengthUnit, ratio: number, [right, y]: Point): void {
  const most = (32 * ratio) / MM_PER_UNIT[unit];
  const ten = 10 ** Math.floor(Math.log10(most));
  const value = [5, 2, 1].map((k) => k * ten).find((one) => one <= most) ?? ten;
  const length = (value * MM_PER_UNIT[unit]) / ratio;
  const left = right - length;
  for (let i = 0; i < 5; i++) {
    const [from, to] = [left + (i * length) / 5, left + ((i + 1) * length) / 5];
    const corners: Point[] = [
      [from, y - 1.5],
      [to, y - 1.5],
      [to, y],
      [from, y],
    ];
    if (i % 2 === 0) ink.fill(corners);
    ink.line([...corners, corners[0]]);
  }
  ink.text('0', [left, y - 2.5], { sizeMm: NOTE_MM, anchor: 'middle' });
  ink.text(`${value} ${unit}`, [right, y - 2.5], { sizeMm: NOTE_MM, anchor: 'end' });
}
