import { cellEdges } from '../kit/axis.ts';
import { TINT_REACH_MM, tintStrength } from '../kit/tint.ts';
import type { Tokens } from '../kit/tokens.ts';
import { type Segment, zeroContour } from './contour.ts';
import { doneSpans, hasPending } from './spans.ts';
import type { StepPicture, StepState } from './stepPicture.ts';

/** Positions of the steps, as fractions of the map's width (from the left) and height (from the bottom). */
interface MapGrid {
  steerAt: readonly number[];
  travelAt: readonly number[];
}

interface Cell {
  x: number;
  y: number;
  width: number;
  height: number;
}

/** Factor on the tint of estimated cells. */
const ESTIMATE_TINT = 0.45;

/**
 * Draws the sweep map, `width` by `height` px. Hatching, blank cells and marks show the state, the tint shows the margin.
 * Cells between finished rows that are not swept yet get a pale tint interpolated from these rows, under fine stripes. They
 * show neither contact nor unknown states, and their contour is dashed.
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
  const estimated: Cell[] = [];
  for (const { from, to } of doneSpans(picture, count)) {
    for (let row = from + 1; row < to; row++) {
      for (let column = 0; column < count; column++) {
        const sides = [from * count + column, to * count + column];
        if (sides.some((step) => BLANK.includes(picture.states[step]))) continue;
        const [below, above] = sides.map(tintOf);
        const cell = cellOf(row * count + column);
        fill(cell, ESTIMATE_TINT * (below + ((above - below) * (row - from)) / (to - from)));
        estimated.push(cell);
      }
    }
  }
  lineCells(ctx, width, height, estimated, estimateLines(tokens));
  picture.states.forEach((state, step) => {
    if (state === 'unreachable' || state === 'pending') return;
    fill(cellOf(step), state === 'unknown' ? 0 : tintOf(step));
  });
  const cells = (target: StepState) =>
    picture.states.flatMap((state, step) => (state === target ? [cellOf(step)] : []));
  lineCells(ctx, width, height, cells('touches'), contactLines(tokens));
  lineCells(ctx, width, height, cells('binds'), bindingLines(tokens));
  questionMarks(ctx, cells('unknown'), tokens);
  lineCells(ctx, width, height, cells('unreachable'), outOfReachLines(tokens));
  dottedBorders(ctx, picture, count, cellOf, tokens);
  contour(ctx, width, height, grid, picture, picture.leastMm, CONTACT_DASH, tokens);
  contour(ctx, width, height, grid, picture, picture.marginMm, [], tokens);
}

/** The contact contour has short dashes, which distinguishes it from the target contour. */
const CONTACT_DASH = [2, 2];

/** States without a tint. */
const BLANK: readonly StepState[] = ['unreachable', 'unknown'];

/** Hatch lines over cells, rising to the right unless `falling`. */
interface Lines {
  colour: string;
  strength?: number;
  /** Fill colour under the lines. */
  ground?: string;
  widthPx: number;
  /** Distance between lines along the lower edge. */
  spacingPx: number;
  falling?: boolean;
  /** Adds the same lines falling to the right. */
  crossed?: boolean;
}

/** Not swept yet: finer lines than for contact. */
const estimateLines = ({ sheet }: Tokens): Lines => ({ colour: sheet, widthPx: 1.5, spacingPx: 4 });
const contactLines = ({ sheet, touch }: Tokens): Lines => ({
  colour: sheet,
  ground: touch,
  widthPx: 1.6,
  spacingPx: 6,
});
/** Same as for contact, but falling. */
const bindingLines = (tokens: Tokens): Lines => ({ ...contactLines(tokens), falling: true });
const outOfReachLines = ({ soft }: Tokens): Lines => ({
  colour: soft,
  strength: 0.45,
  widthPx: 1,
  spacingPx: 7,
  crossed: true,
});

function lineCells(
  ctx: CanvasRenderingContext2D,
  width: number,
  height: number,
  cells: readonly Cell[],
  { colour, strength = 1, ground, widthPx, spacingPx, falling = false, crossed = false }: Lines,
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
  for (let x = -height; x < width; x += spacingPx) {
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

/** Border between reachable and unreachable steps. */
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
 * Zero contour of a field (margin, or clearance less its error), in ink with a light edge so that it is visible on every
 * tint; with wide dashes across rows that are not swept yet.
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
  const measured: Segment[] = [];
  const estimated: Segment[] = [];
  for (const span of doneSpans(picture, count)) {
    const rows = [span.from, span.to];
    const values = rows.flatMap((row) => [...field.subarray(row * count, (row + 1) * count)]);
    const travelAt = rows.map((row) => grid.travelAt[row]);
    const segments = zeroContour(grid.steerAt, travelAt, values, TINT_REACH_MM);
    (hasPending(span) ? estimated : measured).push(...segments);
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
  draw(estimated, tokens.ink, 1);
  ctx.setLineDash([]);
  draw(measured, tokens.sheet, 3);
  ctx.setLineDash(dash);
  draw(measured, tokens.ink, 1.25);
  ctx.setLineDash([]);
}
