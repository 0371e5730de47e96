import { describe, expect, test } from 'vitest';
import type { Entry } from '../../src/design/schema.ts';
import { buildRotor } from '../../src/parts/rotor/build.ts';
import { axialStack } from '../../src/solids/wheelFrame.ts';
import { between, mulberry32 } from '../oracles/random.ts';
import { benchCorner, contextOf, entryOf, jitteredCorner } from '../solids/benchCorner.ts';
import { expectSound } from '../solids/solidChecks.ts';
import { expectRings, extent, type Ring, ringsVolume } from '../solids/turnedChecks.ts';

const SEED = 7402;

function randomRotor(random: () => number, entry: Entry<'rotor'>): Entry<'rotor'> {
  const hatDiameter = between(random, 140, 180);
  const thickness = between(random, 8, 36);
  return {
    ...entry,
    diameter: between(random, 230, 380),
    thickness,
    hatDiameter,
    innerDiameter: random() < 0.5 ? undefined : hatDiameter + between(random, -40, 40),
    hatThickness: between(random, 4, 10),
    height: thickness + between(random, 5, 40),
    centreBore: between(random, 60, 90),
    mount: random() < 0.5 ? 'overStuds' : 'behindFlange',
  };
}

/** Friction ring, the hat's wall beside it, and the hat's face, without overlap. */
function rotorRings(rotor: Entry<'rotor'>, outerFaceY: number): Ring[] {
  const hat = rotor.hatDiameter / 2;
  const inside = hat - rotor.hatThickness;
  const from = outerFaceY - rotor.height;
  const face = outerFaceY - rotor.hatThickness;
  const ringInside = Math.min(inside, rotor.innerDiameter === undefined ? hat : rotor.innerDiameter / 2);
  const friction = { inner: ringInside, outer: rotor.diameter / 2, from, to: from + rotor.thickness };
  const top = Math.max(face, friction.to);
  return [
    friction,
    { inner: inside, outer: hat, from: friction.to, to: top },
    { inner: rotor.centreBore / 2, outer: hat, from: top, to: outerFaceY },
  ];
}

describe('a rotor', () => {
  test('is closed, made of three rings, with the hat against its side of the flange, for random rotors', async () => {
    const random = mulberry32(SEED);
    for (let i = 0; i < 24; i++) {
      const corner = jitteredCorner(random);
      const rotor = randomRotor(random, entryOf(corner, 'rotor'));
      corner.parts[corner.parts.findIndex(({ id }) => id === rotor.id)] = rotor;
      // If the friction ring reaches into the hat's face, the volume is no sum of separate rings.
      if (rotor.height - rotor.hatThickness < rotor.thickness) continue;
      const chordToleranceMm = between(random, 0.02, 0.2);
      const [solid] = buildRotor(rotor, await contextOf(corner, chordToleranceMm));
      const about = `seed ${SEED}, rotor ${i}: ${JSON.stringify(rotor)}`;
      expectSound(solid, about);
      expect(solid.chordErrorMm, about).toBeLessThanOrEqual(chordToleranceMm + 1e-3);
      expect(solid.carrier, about).toBe('wheel');
      const { hubFaceY } = axialStack(corner);
      const outerFaceY =
        rotor.mount === 'overStuds'
          ? hubFaceY + rotor.hatThickness
          : hubFaceY - entryOf(corner, 'hub').flangeThickness;
      const rings = rotorRings(rotor, outerFaceY);
      expectRings(solid, corner, rings, random, about);
      expect(Math.abs(solid.volumeMm3 / ringsVolume(rings) - 1), about).toBeLessThan(
        (4 / 3) * (chordToleranceMm / (rotor.centreBore / 2)) + 1e-6,
      );
    }
  });

  test('approaches the true volume with the square of the number of sides', async () => {
    const corner = benchCorner();
    const rotor = entryOf(corner, 'rotor');
    const { hubFaceY } = axialStack(corner);
    const truth = ringsVolume(rotorRings(rotor, hubFaceY + rotor.hatThickness));
    const short = async (toleranceMm: number) =>
      1 - buildRotor(rotor, await contextOf(corner, toleranceMm))[0].volumeMm3 / truth;
    const [coarse, fine] = [await short(0.4), await short(0.1)];
    expect(fine).toBeGreaterThan(0);
    expect(coarse / fine).toBeGreaterThan(3.4);
    expect(coarse / fine).toBeLessThan(4.6);
  });

  test('has the given overall height and outside diameter', async () => {
    const corner = benchCorner();
    const rotor = entryOf(corner, 'rotor');
    const { radius, y } = extent(buildRotor(rotor, await contextOf(corner))[0].mesh, corner);
    // 1 7/8 in over a hat of the default 7 mm on the hub's face.
    expect(y.most - y.least).toBeCloseTo(47.625, 4);
    expect(y.most - axialStack(corner).hubFaceY).toBeCloseTo(7, 4);
    expect(radius.most).toBeCloseTo(155, 4);
    expect(radius.least).toBeCloseTo(34, 4);
  });

  test.each([
    [{ hatDiameter: 320 }, /hatDiameter 320\.00 mm must be less than diameter 310\.00 mm/],
    [{ innerDiameter: 310 }, /innerDiameter 310\.00 mm must be less than diameter/],
    [{ centreBore: 170 }, /centreBore 170\.00 mm must be less than hatDiameter/],
    [{ height: 20 }, /height 20\.00 mm.*cannot be less than thickness 26\.00 mm/],
  ])('rejects %o', async (change, message) => {
    const corner = benchCorner();
    const context = await contextOf(corner);
    expect(() => buildRotor({ ...entryOf(corner, 'rotor'), ...change }, context)).toThrow(message);
  });
});
