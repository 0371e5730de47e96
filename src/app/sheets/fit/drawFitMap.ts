import { Color } from 'three';
import { ANGLES, angleIndex } from '../../../studies/clocking/profile.ts';
import type { SpanState } from '../../../studies/clocking/spans.ts';
import { tintStrength } from '../../kit/tint.ts';
import type { Tokens } from '../../kit/tokens.ts';
import { clockingAt, type FitAxis, type FitPicture } from '../../workers/fit/fitPicture.ts';

/** Hatching where a clocking fails: pitch and width of its lines, px. */
const HATCH_APART_PX = 6;
const HATCH_PX = 2;
/** Pitch of the dots where a clocking is undecided, px. */
const DOTS_APART_PX = 4;
/** Strength of the colour where the requirements are not met. */
const PALE = 0.32;
/** Number of tints. */
const SHADES = 256;

const CLEARS = 0;
const FAILS = 2;
const STATE_CODES: Record<SpanState, number> = { clears: CLEARS, unsettled: 1, fails: FAILS };
/** Added to the code of a state that does not meet the requirements. */
const UNWANTED = 4;
/** Index of 0 degrees in `ANGLES`. */
const ZERO = angleIndex(0);

type Rgb = readonly [number, number, number];

const rgbOf = (token: string): Rgb => {
  const hex = new Color(token).getHex();
  return [(hex >> 16) & 255, (hex >> 8) & 255, hex & 255];
};

const mix = (from: Rgb, to: Rgb, share: number): Rgb =>
  [0, 1, 2].map((k) => from[k] + (to[k] - from[k]) * share) as unknown as Rgb;

/**
 * Draws the map, `size` px square: caliper clocking to the right, hub clocking up. Clear cells have a stronger tint for less
 * margin, as on the sweep map. Cells that fail are hatched, undecided ones dotted, those that do not meet the requirements
 * pale. A line surrounds the cells that are clear and meet the requirements.
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
  const shades = Array.from({ length: SHADES }, (_, k) => mix(sheet, accent, k / (SHADES - 1)));
  const [caliper, hub, between] = [picture.caliper, picture.hub, picture.between].map(numbered);
  const places = Int32Array.from({ length: size }, (_, px) => angleIndex(clockingAt((px + 0.5) / size)));
  /** Code of each pixel's state and requirements, and the tint of the clear ones. */
  const codes = new Uint8Array(size * size);
  const tints = new Uint8Array(size * size);
  for (let y = 0, at = 0; y < size; y++) {
    const b = places[size - 1 - y];
    for (let x = 0; x < size; x++, at++) {
      const a = places[x];
      const c = (a - b + ANGLES.length + ZERO) % ANGLES.length;
      const code = Math.max(caliper.codes[a], hub.codes[b], between.codes[c]);
      const isWanted = picture.caliperAllowed[a] && picture.hubAllowed[b];
      codes[at] = code + (isWanted ? 0 : UNWANTED);
      if (code === CLEARS)
        tints[at] = Math.round(
          tintStrength(Math.min(caliper.marginMm[a], hub.marginMm[b], between.marginMm[c])) * (SHADES - 1),
        );
    }
  }
  const image = ctx.createImageData(size, size);
  for (let y = 0, at = 0; y < size; y++)
    for (let x = 0; x < size; x++, at++) {
      const isClear = codes[at] === CLEARS;
      const isBorder =
        (x + 1 < size && (codes[at + 1] === CLEARS) !== isClear) ||
        (y + 1 < size && (codes[at + size] === CLEARS) !== isClear);
      const tone = isBorder ? ink : toneOf(codes[at], tints[at], x, y);
      image.data[4 * at] = tone[0];
      image.data[4 * at + 1] = tone[1];
      image.data[4 * at + 2] = tone[2];
      image.data[4 * at + 3] = 255;
    }
  ctx.putImageData(image, 0, 0);

  function toneOf(code: number, shade: number, x: number, y: number): Rgb {
    const isUnwanted = code >= UNWANTED;
    const own = isUnwanted ? code - UNWANTED : code;
    const isMarked =
      own === FAILS
        ? (x + y) % HATCH_APART_PX < HATCH_PX
        : x % DOTS_APART_PX === 0 && y % DOTS_APART_PX === 0;
    if (own !== CLEARS && !isMarked) return sheet;
    const tone = own === CLEARS ? shades[shade] : own === FAILS ? touch : soft;
    return isUnwanted ? mix(sheet, tone, PALE) : tone;
  }
}

/** An axis as numbers: codes of its states, worse is higher, and its margins. */
const numbered = ({ least, states }: FitAxis) => ({
  codes: Uint8Array.from(states, (state) => STATE_CODES[state]),
  marginMm: Float64Array.from(least, ({ marginMm }) => marginMm),
});
