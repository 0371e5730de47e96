import { Vector3 } from 'three';
import { afterEach, describe, expect, it } from 'vitest';
import { clipPlane, isCutAway, setClipPlane } from '../../../src/app/view3d/clipPlane.ts';
import { shownPoint } from '../../../src/design/side.ts';
import { applyPoint, compose, rotationAbout, translation } from '../../../src/math/rigid.ts';
import { normalize, type Vec3 } from '../../../src/math/vec.ts';
import { between, mulberry32 } from '../../oracles/random.ts';

afterEach(() => setClipPlane(undefined, 'left'));

describe('the clipped side of a section', () => {
  it.each(['left', 'right'] as const)('is the side of the plane normal for a %s corner as shown', (side) => {
    const random = mulberry32(9);
    for (let trial = 0; trial < 50; trial++) {
      const axis = normalize([between(random, -1, 1), between(random, -1, 1), between(random, -1, 1)]);
      const turn = rotationAbout([0, 0, 0], axis, between(random, 0, 6));
      const plane = compose(translation([between(random, -900, 900), 700, 300]), turn);
      setClipPlane(plane, side);
      const at = (height: number) => {
        const point: Vec3 = [between(random, -500, 500), between(random, -500, 500), height];
        return new Vector3(...shownPoint(side, applyPoint(plane, point)));
      };
      const place = `trial ${trial} of seed 9`;
      expect(isCutAway(at(0.1)), place).toBe(true);
      expect(isCutAway(at(300)), place).toBe(true);
      expect(isCutAway(at(-0.1)), place).toBe(false);
      // Points in the plane are kept.
      expect(isCutAway(at(0)), place).toBe(false);
    }
  });

  it('is empty without a section, and the plane stays the same object', () => {
    const before = clipPlane;
    setClipPlane(undefined, 'right');
    expect(clipPlane).toBe(before);
    for (const x of [-9000, 0, 9000]) expect(isCutAway(new Vector3(x, -x, x))).toBe(false);
  });
});
