import type { Point2 } from '../../solids/simplePolygon.ts';
import { PAPER_MM, type Paper } from '../pdf/paper.ts';
import type { Box } from './drawing.ts';
import type { Entity } from './entity.ts';

/** Margin that printers leave, mm: common practice, no source. */
export const MARGIN_MM = 10;
/** Height of the line of text below the frame of a page, mm. */
const FOOT_MM = 8;
/** By how much neighbouring pages show the same strip of the drawing, mm. */
export const OVERLAP_MM = 10;
/** Length of the arms of a match mark, mm. */
const ARM_MM = 4;

/** A page of a tiled drawing. */
export interface Tile {
  /** From 1, from the top left. */
  row: number;
  column: number;
  /** The part of the drawing in the page's frame; as large as the frame. */
  window: Box;
}

export interface Tiling {
  rows: number;
  columns: number;
  /** Size of each page's frame, mm; the frame is one margin from the left and top edge of the paper. */
  frameMm: Point2;
  tiles: readonly Tile[];
  /** Crosses in the middle of the overlaps, in the drawing: both neighbours show them. */
  marks: readonly Entity[];
}

/** Pages that cover a box of the drawing, which is centred in them. */
export function tilingOf({ min, max }: Box, paper: Paper): Tiling {
  const [paperWidth, paperHeight] = PAPER_MM[paper];
  const frame: Point2 = [paperWidth - 2 * MARGIN_MM, paperHeight - 2 * MARGIN_MM - FOOT_MM];
  const counts = [0, 1].map((k) =>
    Math.max(1, Math.ceil((max[k] - min[k] - OVERLAP_MM) / (frame[k] - OVERLAP_MM))),
  );
  const [columns, rows] = counts;
  const step = frame.map((size) => size - OVERLAP_MM);
  const start = [0, 1].map((k) => (min[k] + max[k] - (counts[k] * step[k] + OVERLAP_MM)) / 2);
  const top = start[1] + rows * step[1] + OVERLAP_MM;
  const tiles = Array.from({ length: rows * columns }, (_, i): Tile => {
    const [row, column] = [Math.floor(i / columns), i % columns];
    const left = start[0] + column * step[0];
    const high = top - row * step[1];
    return {
      row: row + 1,
      column: column + 1,
      window: { min: [left, high - frame[1]], max: [left + frame[0], high] },
    };
  });
  const quarters = (from: number, size: number) => [from + size / 4, from + (3 * size) / 4];
  const seams = tiles.flatMap(({ row, column, window }): Point2[] => [
    ...(column < columns
      ? quarters(window.min[1], frame[1]).map((y): Point2 => [window.max[0] - OVERLAP_MM / 2, y])
      : []),
    ...(row < rows
      ? quarters(window.min[0], frame[0]).map((x): Point2 => [x, window.min[1] + OVERLAP_MM / 2])
      : []),
  ]);
  return { rows, columns, frameMm: frame, tiles, marks: seams.flatMap(matchMark) };
}

function matchMark([x, y]: Point2, index: number): Entity[] {
  return [
    { kind: 'line', layer: 'CHECK', from: [x - ARM_MM, y], to: [x + ARM_MM, y] },
    { kind: 'line', layer: 'CHECK', from: [x, y - ARM_MM], to: [x, y + ARM_MM] },
    { kind: 'loop', layer: 'CHECK', loop: { kind: 'circle', centre: [x, y], radiusMm: ARM_MM / 2 } },
    { kind: 'text', layer: 'CHECK', at: [x + 1.6, y + 2], heightMm: 1.8, text: `M${index + 1}` },
  ];
}
