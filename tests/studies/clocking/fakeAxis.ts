import { Axis, profiled } from '../../../src/studies/clocking/axis.ts';
import type { Measurable } from '../../../src/studies/clocking/profile.ts';

/**
 * A sinusoidal margin about `middleMm` with `waves` periods in a turn, highest at `topDeg`; its bounds follow from
 * its slope and curvature.
 */
export interface Wave {
  middleMm: number;
  heightMm: number;
  waves: number;
  topDeg: number;
}

export const waveAt = ({ middleMm, heightMm, waves, topDeg }: Wave, deg: number): number =>
  middleMm + heightMm * Math.cos((waves * (deg - topDeg) * Math.PI) / 180);

export function fakePair(wave: Wave): Measurable {
  const { heightMm, waves, topDeg } = wave;
  const perDeg = (waves * Math.PI) / 180;
  return {
    at: (deg) => ({ kind: 'separated', marginMm: waveAt(wave, deg), errorMm: 0 }),
    bounds(deg, halfDeg) {
      const slope = heightMm * perDeg * Math.abs(Math.sin(perDeg * (deg - topDeg)));
      const mostMm = slope * halfDeg + (heightMm * (perDeg * halfDeg) ** 2) / 2;
      return { lowerMm: waveAt(wave, deg) - mostMm, upperMm: waveAt(wave, deg) + mostMm };
    },
  };
}

/** An axis of such pairs, with their indices in the study. */
export const fakeAxis = (waves: readonly Wave[], firstIndex = 0): Axis =>
  new Axis(waves.map((wave, k) => profiled(firstIndex + k, fakePair(wave))));
