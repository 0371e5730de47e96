import { Color } from 'three';
import { tintStrength } from '../pad/tint.ts';
import type { Tokens } from '../tokens.ts';
import { cellAt, clockingAt, type FitCell, type FitPicture } from './fitPicture.ts';

/** From line to line of the hatch where a clocking fails, px, and how wide a line is. */
const HATCH_APART_PX = 6;
const HATCH_PX = 2;
/** Dots where it cannot be told. */
const DOTS_APART_PX = 4;
/** How much is left of what the wants do not allow. */
const UNWANTED = 0.32;

type Rgb = readonly [number, number, number];

const rgbOf = (token: string): Rgb => {
  const hex = new Color(token).getHex();
  return [(hex >> 16) & 255, (hex >> 8) & 255, hex & 255];
};

const mix = (from: Rgb, to: Rgb, share: number): Rgb =>
  [0, 1, 2].map((k) => from[k] + (to[k] - from[k]) * share) as unknown as Rgb;

/**
 * Draws the map, `size` px square: caliper clocking to the right, hub clocking up. Clear cells are tinted the stronger the
 * less is left, as on the sweep map; where a pair fails its margin there is a hatch, where that cannot be told there are
 * dots, what the wants do not allow is pale, and a line runs round what is left.
 */
export function drawFitMap(
  ctx: CanvasRenderingContext2D,
  size: number,
  picture: FitPicture,
  tokens: Tokens,
): void {
  const [sheet, ink, accent, touch, soft] = [
    tokens.sheet,
    tokens.ink,
    tokens.accent,
    tokens.touch,
    tokens.soft,
  ].map(rgbOf);
  const angles = Array.from({ length: size }, (_, px) => clockingAt((px + 0.5) / size));
  const cells: FitCell[] = [];
  for (let y = 0; y < size; y++)
    for (let x = 0; x < size; x++)
      cells.push(cellAt(picture, { caliperDeg: angles[x], hubDeg: angles[size - 1 - y] }));
  const isLeft = ({ state, isWanted }: FitCell): boolean => state === 'clears' && isWanted;
  const image = ctx.createImageData(size, size);
  cells.forEach((cell, at) => {
    const [x, y] = [at % size, Math.floor(at / size)];
    const isBorder =
      (x + 1 < size && isLeft(cells[at + 1]) !== isLeft(cell)) ||
      (y + 1 < size && isLeft(cells[at + size]) !== isLeft(cell));
    const shown = isBorder ? ink : toneOf(cell, x, y);
    image.data.set([...shown, 255], 4 * at);
  });
  ctx.putImageData(image, 0, 0);

  function toneOf(cell: FitCell, x: number, y: number): Rgb {
    const { least, state, isWanted } = cell;
    const isHatch = (x + y) % HATCH_APART_PX < HATCH_PX;
    const isDot = x % DOTS_APART_PX === 0 && y % DOTS_APART_PX === 0;
    let tone: Rgb;
    if (state === 'clears') tone = mix(sheet, accent, tintStrength(least.marginMm));
    else if (state === 'fails') tone = isHatch ? touch : sheet;
    else tone = isDot ? soft : sheet;
    return isWanted ? tone : mix(sheet, tone, UNWANTED);
  }
}
