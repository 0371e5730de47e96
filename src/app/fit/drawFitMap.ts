import { Color } from 'three';
import { ANGLES, angleIndex } from '../../studies/clocking/profile.ts';
import type { SpanState } from '../../studies/clocking/spans.ts';
import { tintStrength } from '../pad/tint.ts';
import type { Tokens } from '../tokens.ts';
import { clockingAt, type FitAxis, type FitPicture } from './fitPicture.ts';

/** From line to line of the hatch where a clocking fails, px, and how wide a line is. */
const HATCH_APART_PX = 6;
const HATCH_PX = 2;
/** Dots where it cannot be told. */
const DOTS_APART_PX = 4;
/** How much is left of what the wants do not allow. */
const PALE = 0.32;
/** Tints that are told apart. */
const SHADES = 256;

const CLEARS = 0;
const FAILS = 2;
const FARES: Record<SpanState, number> = { clears: CLEARS, unsettled: 1, fails: FAILS };
/** Is added to how something fares that is not wanted. */
const UNWANTED = 4;
/** Place of 0 degrees in `ANGLES`. */
const ZERO = angleIndex(0);

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
  const shades = Array.from({ length: SHADES }, (_, k) => mix(sheet, accent, k / (SHADES - 1)));
  const [caliper, hub, between] = [picture.caliper, picture.hub, picture.between].map(numbered);
  const places = Int32Array.from({ length: size }, (_, px) => angleIndex(clockingAt((px + 0.5) / size)));
  /** Of each px how it fares and whether that is wanted; of those that clear, what is left of them. */
  const fares = new Uint8Array(size * size);
  const left = new Uint8Array(size * size);
  for (let y = 0, at = 0; y < size; y++) {
    const b = places[size - 1 - y];
    for (let x = 0; x < size; x++, at++) {
      const a = places[x];
      const c = (a - b + ANGLES.length + ZERO) % ANGLES.length;
      const fare = Math.max(caliper.fares[a], hub.fares[b], between.fares[c]);
      const isWanted = picture.caliperWanted[a] && picture.hubWanted[b];
      fares[at] = fare + (isWanted ? 0 : UNWANTED);
      if (fare === CLEARS)
        left[at] = Math.round(
          tintStrength(Math.min(caliper.marginMm[a], hub.marginMm[b], between.marginMm[c])) * (SHADES - 1),
        );
    }
  }
  const image = ctx.createImageData(size, size);
  for (let y = 0, at = 0; y < size; y++)
    for (let x = 0; x < size; x++, at++) {
      const isLeft = fares[at] === CLEARS;
      const isBorder =
        (x + 1 < size && (fares[at + 1] === CLEARS) !== isLeft) ||
        (y + 1 < size && (fares[at + size] === CLEARS) !== isLeft);
      const tone = isBorder ? ink : toneOf(fares[at], left[at], x, y);
      image.data[4 * at] = tone[0];
      image.data[4 * at + 1] = tone[1];
      image.data[4 * at + 2] = tone[2];
      image.data[4 * at + 3] = 255;
    }
  ctx.putImageData(image, 0, 0);

  function toneOf(fare: number, shade: number, x: number, y: number): Rgb {
    const isUnwanted = fare >= UNWANTED;
    const own = isUnwanted ? fare - UNWANTED : fare;
    const isMarked =
      own === FAILS
        ? (x + y) % HATCH_APART_PX < HATCH_PX
        : x % DOTS_APART_PX === 0 && y % DOTS_APART_PX === 0;
    if (own !== CLEARS && !isMarked) return sheet;
    const tone = own === CLEARS ? shades[shade] : own === FAILS ? touch : soft;
    return isUnwanted ? mix(sheet, tone, PALE) : tone;
  }
}

/** An axis in numbers: how it fares, the worse the higher, and its margins. */
const numbered = ({ least, states }: FitAxis) => ({
  fares: Uint8Array.from(states, (state) => FARES[state]),
  marginMm: Float64Array.from(least, ({ marginMm }) => marginMm),
});
