import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { identity, rotationAbout } from '../../src/math/rigid.ts';
import { figuresIn } from '../../src/report/figures.ts';
import { placeInWords, wheelPlace, wheelPlaceInWords } from '../../src/report/placeInWords.ts';
import { readDesign } from '../design/readDesign.ts';
import { cornerSource } from './cornerSource.ts';

/** A corner without camber and toe, so that the wheel's axes are those of the vehicle. */
const upright = () => {
  const source = cornerSource();
  Object.assign(source.suspension, { camberDeg: 0, toeDeg: 0, hubFace: -20 });
  return readDesign(source).corner;
};
const figures = figuresIn('mm');

describe('place about the wheel axis', () => {
  // Wheel centre (0, 720, 330), hub face 20 inboard of it: depth 0 is Y 700. Closed form.
  it.each([
    [[0, 700, 430], 0, 100, 0],
    [[-100, 690, 330], 90, 100, -10],
    [[100, 712, 330], -90, 100, 12],
    [[-30, 700, 290], 143.13010235415598, 50, 0],
  ] as const)('%j', (point, clockDeg, radiusMm, depthMm) => {
    const place = wheelPlace(upright(), identity(), point);
    expect(place.clockDeg).toBeCloseTo(clockDeg, 9);
    expect(place.radiusMm).toBeCloseTo(radiusMm, 9);
    expect(place.depthMm).toBeCloseTo(depthMm, 9);
  });

  it('does not change if a point is steered with the upright', () => {
    const corner = upright();
    fc.assert(
      fc.property(fc.double({ min: -40, max: 40, noNaN: true }), (steerDeg) => {
        // A rotation about a vertical kingpin through X 10, Y 640; the expected point is computed here.
        const turn = rotationAbout([10, 640, 0], [0, 0, 1], (steerDeg * Math.PI) / 180);
        const [c, s] = [Math.cos((steerDeg * Math.PI) / 180), Math.sin((steerDeg * Math.PI) / 180)];
        const [dx, dy] = [-60 - 10, 690 - 640];
        const place = wheelPlace(corner, turn, [10 + c * dx - s * dy, 640 + s * dx + c * dy, 410]);
        expect(place.clockDeg).toBeCloseTo(36.86989764584402, 6);
        expect(place.radiusMm).toBeCloseTo(100, 6);
        expect(place.depthMm).toBeCloseTo(-10, 6);
      }),
      { seed: 20310506 },
    );
  });

  it('is formatted as text', () => {
    const corner = upright();
    expect(placeInWords(corner, 'upright', identity(), [-100, 690, 330], figures)).toBe(
      'X −100.0, Y +690.0, Z +330.0 mm; 90.0° rearward of the top, 100.0 mm from the wheel axis, 10.0 mm inboard of the hub face',
    );
    expect(placeInWords(corner, 'chassis', identity(), [-100, 690, 330], figures)).toBe(
      'X −100.0, Y +690.0, Z +330.0 mm',
    );
    expect(wheelPlaceInWords({ clockDeg: -0.001, radiusMm: 25.4, depthMm: 0.001 }, figuresIn('in'))).toBe(
      'at the top, 1.00 in from the wheel axis, level with the hub face',
    );
    expect(wheelPlaceInWords({ clockDeg: 12, radiusMm: 0.04, depthMm: -5 }, figures)).toBe(
      'on the wheel axis, 5.0 mm inboard of the hub face',
    );
    expect(placeInWords({ ...corner, side: 'right' }, 'chassis', identity(), [1, 690, 330], figures)).toBe(
      'X +1.0, Y −690.0, Z +330.0 mm',
    );
  });
});
