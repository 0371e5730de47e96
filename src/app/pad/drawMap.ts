import type { Tokens } from '../tokens.ts';
import { cellEdges } from './axis.ts';
import { type Segment, zeroContour } from './contour.ts';
import { doneSpans, isOpen } from './spans.ts';
import type { StepPicture, StepState } from './stepPicture.ts';
import { TINT_REACH_MM, tintStrength } from './tint.ts';

/** The grid of a map: where each step stands, as fractions of the pad's width (from left) and height (from bottom). */
export interface MapGrid {
  steerAt: readonly number[];
  travelAt: readonly number[];
}

interface Cell {
  x: number;
  y: number;
  width: number;
  height: number;
}

/** How much of the tint shows where it is only guessed from the rows that are done. */
const GUESS = 0.45;

/**
 * Draws the sweep map `width` by `height` px. State shows as hatch, blank and marks; tint says how much is left. Between
 * rows that are done, what is not swept yet is given pale and under fine stripes, as the rows beside it lead one to guess;
 * it shows no contact and no unknown, and its contour is broken.
 */
export function drawMap(
  ctx: CanvasRenderingContext2D,
  width: number,
  height: number,
  grid: MapGrid,
  picture: StepPicture,
  tokens: Tokens,
): void {
  const columns = cellEdges(grid.steerAt).map((f) => Math.round(f * width));
  const rows = cellEdges(grid.travelAt).map((f) => Math.round((1 - f) * height));
  const count = grid.steerAt.length;
  const cellOf = (step: number): Cell => {
    const [row, column] = [Math.floor(step / count), step % count];
    const [x1, x2, y1, y2] = [columns[column], columns[column + 1], rows[row], rows[row + 1]];
    return {
      x: Math.min(x1, x2),
      y: Math.min(y1, y2),
      width: Math.abs(x2 - x1),
      height: Math.abs(y2 - y1),
    };
  };
  const tintOf = (step: number) =>
    picture.states[step] === 'touches' || picture.states[step] === 'binds'
      ? tintStrength(0)
      : tintStrength(picture.marginMm[step]);
  const fill = ({ x, y, width: w, height: h }: Cell, tint: number) => {
    ctx.globalAlpha = 1;
    ctx.fillStyle = tokens.sheet;
    ctx.fillRect(x, y, w, h);
    ctx.globalAlpha = tint;
    ctx.fillStyle = tokens.accent;
    ctx.fillRect(x, y, w, h);
    ctx.globalAlpha = 1;
  };
  ctx.clearRect(0, 0, width, height);
  const guessed: Cell[] = [];
  for (const { from, to } of doneSpans(picture, count)) {
    for (let row = from + 1; row < to; row++) {
      for (let column = 0; column < count; column++) {
        const sides = [from * count + column, to * count + column];
        if (sides.some((step) => BLANK.includes(picture.states[step]))) continue;
        const [below, above] = sides.map(tintOf);
        const cell = cellOf(row * count + column);
        fill(cell, GUESS * (below + ((above - below) * (row - from)) / (to - from)));
        guessed.push(cell);
      }
    }
  }
  lineCells(ctx, width, height, guessed, guessLines(tokens));
  picture.states.forEach((state, step) => {
    if (state === 'unreachable' || state === 'pending') return;
    fill(cellOf(step), state === 'unknown' ? 0 : tintOf(step));
  });
  const cells = (wanted: StepState) =>
    picture.states.flatMap((state, step) => (state === wanted ? [cellOf(step)] : []));
  lineCells(ctx, width, height, cells('touches'), contactLines(tokens));
  lineCells(ctx, width, height, cells('binds'), bindingLines(tokens));
  questionMarks(ctx, cells('unknown'), tokens);
  lineCells(ctx, width, height, cells('unreachable'), outOfReachLines(tokens));
  dottedBorders(ctx, picture, count, cellOf, tokens);
  contour(ctx, width, height, grid, picture, picture.leastMm, CONTACT_DASH, tokens);
  contour(ctx, width, height, grid, picture, picture.marginMm, [], tokens);
}

/** Contact is a line of short dashes, so that it is told from the target without its place. */
const CONTACT_DASH = [2, 2];

/** States of which no tint can be told. */
const BLANK: readonly StepState[] = ['unreachable', 'unknown'];

/** Lines over cells, rising to the right unless `falling`. */
interface Lines {
  colour: string;
  strength?: number;
  /** What the cells are filled with first. */
  ground?: string;
  widthPx: number;
  /** From line to line along the lower edge. */
  apartPx: number;
  falling?: boolean;
  /** As many fall to the right. */
  crossed?: boolean;
}

/** Not swept yet: finer than contact, on the tint of the rows beside it. */
const guessLines = ({ sheet }: Tokens): Lines => ({ colour: sheet, widthPx: 1.5, apartPx: 4 });
const contactLines = ({ sheet, touch }: Tokens): Lines => ({
  colour: sheet,
  ground: touch,
  widthPx: 1.6,
  apartPx: 6,
});
/** As contact, falling. */
const bindingLines = (tokens: Tokens): Lines => ({ ...contactLines(tokens), falling: true });
const outOfReachLines = ({ soft }: Tokens): Lines => ({
  colour: soft,
  strength: 0.45,
  widthPx: 1,
  apartPx: 7,
  crossed: true,
});

function lineCells(
  ctx: CanvasRenderingContext2D,
  width: number,
  height: number,
  cells: readonly Cell[],
  { colour, strength = 1, ground, widthPx, apartPx, falling = false, crossed = false }: Lines,
) {
  if (cells.length === 0) return;
  ctx.save();
  ctx.beginPath();
  for (const cell of cells) ctx.rect(cell.x, cell.y, cell.width, cell.height);
  ctx.clip();
  if (ground !== undefined) {
    ctx.fillStyle = ground;
    ctx.fillRect(0, 0, width, height);
  }
  ctx.strokeStyle = colour;
  ctx.globalAlpha = strength;
  ctx.lineWidth = widthPx;
  ctx.beginPath();
  for (let x = -height; x < width; x += apartPx) {
    if (!falling) {
      ctx.moveTo(x, height);
      ctx.lineTo(x + height, 0);
    }
    if (falling || crossed) {
      ctx.moveTo(x, 0);
      ctx.lineTo(x + height, height);
    }
  }
  ctx.stroke();
  ctx.restore();
}

function questionMarks(ctx: CanvasRenderingContext2D, cells: Cell[], tokens: Tokens) {
  ctx.fillStyle = tokens.soft;
  ctx.textAlign = 'center';
  ctx.textBaseline = 'middle';
  for (const { x, y, width, height } of cells) {
    ctx.font = `${Math.min(11, Math.max(7, Math.min(width, height)))}px sans-serif`;
    ctx.fillText('?', x + width / 2, y + height / 2);
  }
}

/** The border between what can be reached and what cannot. */
function dottedBorders(
  ctx: CanvasRenderingContext2D,
  { states }: StepPicture,
  count: number,
  cellOf: (step: number) => Cell,
  tokens: Tokens,
) {
  ctx.strokeStyle = tokens.ink;
  ctx.lineWidth = 1;
  ctx.setLineDash([1.5, 2.5]);
  ctx.beginPath();
  const isOut = (step: number) => states[step] === 'unreachable';
  const isDone = (step: number) => states[step] !== 'pending';
  states.forEach((_, step) => {
    const cell = cellOf(step);
    for (const next of [(step + 1) % count === 0 ? -1 : step + 1, step + count]) {
      if (next < 0 || next >= states.length || !isDone(step) || !isDone(next)) continue;
      if (isOut(step) === isOut(next)) continue;
      const other = cellOf(next);
      if (next === step + 1) {
        const x = Math.max(cell.x, other.x) + 0.5;
        ctx.moveTo(x, cell.y);
        ctx.lineTo(x, cell.y + cell.height);
      } else {
        const y = Math.max(cell.y, other.y) + 0.5;
        ctx.moveTo(cell.x, y);
        ctx.lineTo(cell.x + cell.width, y);
      }
    }
  });
  ctx.stroke();
  ctx.setLineDash([]);
}

/**
 * Where a field (the margin, or what is left to contact) is just used up, in ink with an edge of paper so that it shows on
 * every tint; broken widely across rows that are not swept yet.
 */
function contour(
  ctx: CanvasRenderingContext2D,
  width: number,
  height: number,
  grid: MapGrid,
  picture: StepPicture,
  field: Float64Array,
  dash: number[],
  tokens: Tokens,
) {
  const count = grid.steerAt.length;
  const sure: Segment[] = [];
  const guessed: Segment[] = [];
  for (const span of doneSpans(picture, count)) {
    const rows = [span.from, span.to];
    const values = rows.flatMap((row) => [...field.subarray(row * count, (row + 1) * count)]);
    const travelAt = rows.map((row) => grid.travelAt[row]);
    const segments = zeroContour(grid.steerAt, travelAt, values, TINT_REACH_MM);
    (isOpen(span) ? guessed : sure).push(...segments);
  }
  const draw = (segments: readonly Segment[], colour: string, line: number) => {
    ctx.strokeStyle = colour;
    ctx.lineWidth = line;
    ctx.beginPath();
    for (const { x1, y1, x2, y2 } of segments) {
      ctx.moveTo(x1 * width, (1 - y1) * height);
      ctx.lineTo(x2 * width, (1 - y2) * height);
    }
    ctx.stroke();
  };
  ctx.setLineDash([3, 4]);
  draw(guessed, tokens.ink, 1);
  ctx.setLineDash([]);
  draw(sure, tokens.sheet, 3);
  ctx.setLineDash(dash);
  draw(sure, tokens.ink, 1.25);
  ctx.setLineDash([]);
}
