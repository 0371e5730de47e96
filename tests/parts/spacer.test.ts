import { describe, expect, test } from 'vitest';
import type { Corner, Entry } from '../../src/design/schema.ts';
import { buildSpacer } from '../../src/parts/spacer/build.ts';
import { axialStack } from '../../src/solids/wheelFrame.ts';
import { between, mulberry32 } from '../oracles/random.ts';
import { benchCorner, contextOf, jitteredCorner } from '../solids/benchCorner.ts';
import { expectSound } from '../solids/solidChecks.ts';
import { expectRings, extent, ringsVolume } from '../solids/turnedChecks.ts';

const SEED = 7401;

function withSpacer(corner: Corner, spacer: Partial<Entry<'spacer'>>): Entry<'spacer'> {
  const entry: Entry<'spacer'> = {
    id: `spacer${corner.parts.length}`,
    kind: 'spacer',
    allowance: 0,
    place: 'wheel',
    thickness: 10,
    outerDiameter: 150,
    innerDiameter: 70,
    ...spacer,
  };
  corner.parts.push(entry);
  return entry;
}

describe('a spacer', () => {
  test('is a closed ring of volume pi (R^2 - r^2) t between the faces that it separates, for random spacers', async () => {
    const random = mulberry32(SEED);
    for (let i = 0; i < 20; i++) {
      const corner = jitteredCorner(random);
      const place = random() < 0.5 ? 'wheel' : 'upright';
      const bare = axialStack(corner);
      const spacer = withSpacer(corner, {
        place,
        thickness: between(random, 3, 40),
        outerDiameter: between(random, 130, 180),
        innerDiameter: between(random, 60, 90),
      });
      const stack = axialStack(corner);
      const chordToleranceMm = between(random, 0.02, 0.2);
      const [solid] = buildSpacer(spacer, await contextOf(corner, chordToleranceMm));
      const about = `seed ${SEED}, spacer ${i}: ${JSON.stringify(spacer)}`;
      expectSound(solid, about);
      expect(solid.chordErrorMm, about).toBeLessThanOrEqual(chordToleranceMm + 1e-3);
      expect(solid.carrier, about).toBe(place);
      const from = stack.hubFaceY + (place === 'wheel' ? bare.wheelFaceDepth : stack.uprightFaceDepth);
      const ring = {
        inner: spacer.innerDiameter / 2,
        outer: spacer.outerDiameter / 2,
        from,
        to: from + spacer.thickness,
      };
      expectRings(solid, corner, [ring], random, about);
      const relative = solid.volumeMm3 / ringsVolume([ring]);
      // A polygon's area is less than its circle's by a fraction of at most 4/3 of chord error over radius.
      expect(Math.abs(relative - 1), about).toBeLessThan((4 / 3) * (chordToleranceMm / ring.inner) + 1e-6);
      expect(
        solid.seats?.map(({ solidId }) => solidId),
        about,
      ).toEqual(place === 'wheel' ? [] : ['upright']);
    }
  });

  test('stacks two at one place in the order of the file, the first against hat or housing', async () => {
    const corner = benchCorner();
    const [first, second] = [4, 9].map((thickness) => withSpacer(corner, { thickness }));
    const [inner, outer] = [5, 3].map((thickness) => withSpacer(corner, { place: 'upright', thickness }));
    const { hubFaceY, wheelFaceDepth, housingFaceDepth, uprightFaceDepth } = axialStack(corner);
    const ends = async (spacer: Entry<'spacer'>) => {
      const { y } = extent(buildSpacer(spacer, await contextOf(corner))[0].mesh, corner);
      return [y.least - hubFaceY, y.most - hubFaceY];
    };
    const hat = 7;
    expect(wheelFaceDepth).toBeCloseTo(hat + 13, 9);
    for (const [actual, expected] of [
      [await ends(first), [hat, hat + 4]],
      [await ends(second), [hat + 4, hat + 13]],
      [await ends(inner), [housingFaceDepth - 5, housingFaceDepth]],
      [await ends(outer), [uprightFaceDepth, uprightFaceDepth + 3]],
    ]) {
      expect(actual[0]).toBeCloseTo(expected[0], 4);
      expect(actual[1]).toBeCloseTo(expected[1], 4);
    }
  });

  test('rejects a bore as wide as the ring', async () => {
    const corner = benchCorner();
    const spacer = withSpacer(corner, { innerDiameter: 150 });
    const context = await contextOf(corner);
    expect(() => buildSpacer(spacer, context)).toThrow(
      /innerDiameter 150\.00 mm must be less than outerDiameter/,
    );
  });
});
