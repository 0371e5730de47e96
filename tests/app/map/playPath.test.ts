import { describe, expect, it } from 'vitest';
import { cyclePlace } from '../../../src/app/map/playPath.ts';

const START = { travel: 0.4, steer: -0.7 };
const places = Array.from({ length: 4000 }, (_, i) => cyclePlace(START, i * 0.02, true));

describe('the cycle', () => {
  it('starts at the current pose', () => {
    expect(cyclePlace(START, 0, true)).toEqual(START);
  });

  it('moves continuously: no frame exceeds the greatest speed', () => {
    for (const [i, place] of places.slice(1).entries()) {
      const before = places[i];
      const step = Math.max(Math.abs(place.travel - before.travel), Math.abs(place.steer - before.steer));
      // The easing reaches at most 1.5 times the mean speed: the derivative of 3t² - 2t³ at t = 1/2.
      expect(step).toBeLessThanOrEqual((1.5 * 0.02) / 1.4 + 1e-9);
    }
  });

  it('goes through full bump and droop straight ahead and at both locks', () => {
    for (const steer of [-1, 0, 1]) {
      for (const travel of [-1, 1]) {
        const reached = places.some(
          (place) => Math.abs(place.travel - travel) < 0.02 && Math.abs(place.steer - steer) < 0.02,
        );
        expect(reached, `travel ${travel}, steer ${steer}`).toBe(true);
      }
    }
  });

  it('moves at constant speed without easing', () => {
    const a = cyclePlace({ travel: 0, steer: 0 }, 0.35, false);
    const b = cyclePlace({ travel: 0, steer: 0 }, 0.7, false);
    expect(b.travel).toBeCloseTo(2 * a.travel, 12);
  });
});
