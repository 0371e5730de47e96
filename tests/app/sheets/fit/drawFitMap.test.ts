import { describe, expect, it } from 'vitest';
import type { Tokens } from '../../../../src/app/kit/tokens.ts';
import { drawFitMap } from '../../../../src/app/sheets/fit/drawFitMap.ts';
import {
  cellAt,
  clockingAt,
  type FitAxis,
  type FitPicture,
} from '../../../../src/app/workers/fit/fitPicture.ts';
import { ANGLES } from '../../../../src/studies/clocking/profile.ts';
import type { SpanState } from '../../../../src/studies/clocking/spans.ts';
import { between, mulberry32 } from '../../../oracles/random.ts';

const SEED = 611;
const TOKENS = {
  sheet: '#ffffff',
  ink: '#000000',
  accent: '#0000ff',
  touch: '#ff0000',
  soft: '#00ff00',
} as Tokens;

/** Spans of some degrees in one state each. */
function randomAxis(random: () => number): FitAxis {
  const states: SpanState[] = [];
  while (states.length < ANGLES.length) {
    const state = (['clears', 'clears', 'unsettled', 'fails'] as const)[Math.floor(4 * random())];
    for (let k = Math.floor(between(random, 20, 60)); k > 0; k--) states.push(state);
  }
  return {
    states: states.slice(0, ANGLES.length),
    least: ANGLES.map(() => ({ marginMm: between(random, 0, 20), errorMm: 0.1, limitedBy: 0 })),
  };
}

function drawn(size: number, picture: FitPicture): Uint8ClampedArray {
  let shown = new Uint8ClampedArray();
  const ctx = {
    createImageData: (width: number, height: number) => ({ data: new Uint8ClampedArray(4 * width * height) }),
    putImageData: ({ data }: ImageData) => {
      shown = data as Uint8ClampedArray<ArrayBuffer>;
    },
  };
  drawFitMap(ctx as unknown as CanvasRenderingContext2D, size, picture, TOKENS);
  return shown;
}

describe('the map of both clockings', () => {
  const random = mulberry32(SEED);
  const wanted = (from: number, to: number) => ANGLES.map((deg) => deg >= from && deg <= to);
  const picture: FitPicture = {
    caliper: randomAxis(random),
    hub: randomAxis(random),
    between: randomAxis(random),
    caliperAllowed: wanted(-150, 170),
    hubAllowed: wanted(-180, 100),
    isProved: true,
  };

  it.each([360, 217])('draws each pixel by the state of its cell, at %i px a side', (size) => {
    const data = drawn(size, picture);
    const counts = { border: 0, clears: 0, fails: 0, unsettled: 0, unwanted: 0 };
    for (let y = 0; y < size; y++)
      for (let x = 0; x < size; x++) {
        const [r, g, b, a] = data.subarray(4 * (y * size + x));
        if (a !== 255) throw new Error(`px ${x} ${y} is see-through`);
        if (r + g + b === 0) {
          counts.border += 1;
          continue;
        }
        const { state, isWanted } = cellAt(picture, {
          caliperDeg: clockingAt((x + 0.5) / size),
          hubDeg: clockingAt((size - y - 0.5) / size),
        });
        if (!isWanted) counts.unwanted += 1;
        else counts[state] += 1;
        // Only blue is full where it clears, only red where it fails, only green where it is undecided.
        const full = { clears: b, fails: r, unsettled: g }[state];
        if (full !== 255) throw new Error(`seed ${SEED}, px ${x} ${y}: ${state} is shown as ${r} ${g} ${b}`);
        if (!isWanted && Math.min(r, g, b) < 160) throw new Error(`seed ${SEED}, px ${x} ${y}: not pale`);
      }
    for (const count of Object.values(counts)) expect(count).toBeGreaterThan(size);
  });

  it('has a stronger tint for less margin', () => {
    const clear = (marginMm: number): FitAxis => ({
      states: ANGLES.map(() => 'clears'),
      least: ANGLES.map(() => ({ marginMm, errorMm: 0.1, limitedBy: 0 })),
    });
    const all = ANGLES.map(() => true);
    const red = (marginMm: number) =>
      drawn(10, {
        caliper: clear(30),
        hub: clear(marginMm),
        between: clear(25),
        caliperAllowed: all,
        hubAllowed: all,
        isProved: true,
      })[0];
    expect(red(0)).toBeLessThan(red(3));
    expect(red(3)).toBeLessThan(red(12));
    expect(red(12)).toBeLessThan(red(Number.POSITIVE_INFINITY));
  });
});
