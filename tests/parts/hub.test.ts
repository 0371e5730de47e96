import { describe, expect, test } from 'vitest';
import type { Entry } from '../../src/design/schema.ts';
import { applyPoint } from '../../src/math/rigid.ts';
import { buildHub } from '../../src/parts/hub/build.ts';
import { axialStack, vehicleFromWheelAxis } from '../../src/solids/wheelFrame.ts';
import { distanceToMeshMm } from '../oracles/meshChecks.ts';
import { between, mulberry32 } from '../oracles/random.ts';
import { benchCorner, contextOf, entryOf, jitteredCorner } from '../solids/benchCorner.ts';
import { expectSound } from '../solids/solidChecks.ts';
import { expectRings, expectSpinsInside, extent, type Ring, ringsVolume } from '../solids/turnedChecks.ts';

const SEED = 7403;

function randomHub(random: () => number, entry: Entry<'hub'>): Entry<'hub'> {
  const boltCircle = between(random, 98, 140);
  const mountBoltCircle = between(random, 95, 130);
  return {
    ...entry,
    boltCircle,
    studCount: 4 + Math.floor(4 * random()),
    studDiameter: between(random, 12, 14),
    studLength: random() < 0.1 ? 0 : between(random, 20, 60),
    flangeDiameter: boltCircle + between(random, 16, 40),
    flangeThickness: between(random, 8, 16),
    pilotDiameter: between(random, 54, 72),
    pilotLength: random() < 0.1 ? 0 : between(random, 3, 15),
    mountDepth: between(random, 40, 90),
    housingDiameter: between(random, 70, 95),
    mountBoltCircle,
    mountFlangeDiameter: mountBoltCircle + between(random, 14, 40),
    mountFlangeThickness: between(random, 8, 16),
    spigotDiameter: between(random, 40, 70),
    spigotLength: random() < 0.2 ? 0 : between(random, 5, 30),
    clockingDeg: between(random, -180, 180),
  };
}

describe('a hub', () => {
  test('gives two closed solids of the given rings, with the shown shape inside the checked one, for random hubs', async () => {
    const random = mulberry32(SEED);
    for (let i = 0; i < 20; i++) {
      const corner = jitteredCorner(random);
      const hub = randomHub(random, entryOf(corner, 'hub'));
      corner.parts[corner.parts.findIndex(({ id }) => id === hub.id)] = hub;
      const chordToleranceMm = between(random, 0.02, 0.2);
      const solids = buildHub(hub, await contextOf(corner, chordToleranceMm));
      const about = `seed ${SEED}, hub ${i}: ${JSON.stringify(hub)}`;
      expect(
        solids.map(({ id, kind, carrier }) => [id, kind, carrier]),
        about,
      ).toEqual([
        ['hub', 'hub', 'wheel'],
        ['hub.housing', 'bearingHousing', 'upright'],
      ]);
      const { hubFaceY } = axialStack(corner);
      const back = hubFaceY - hub.flangeThickness;
      const face = hubFaceY - hub.mountDepth;
      const studs = (hub.boltCircle + hub.studDiameter) / 2;
      const turning: Ring[] = [
        { inner: 0, outer: hub.flangeDiameter / 2, from: back, to: hubFaceY },
        { inner: 0, outer: hub.pilotDiameter / 2, from: hubFaceY, to: hubFaceY + hub.pilotLength },
        { inner: studs - hub.studDiameter, outer: studs, from: hubFaceY, to: hubFaceY + hub.studLength },
      ];
      const standing: Ring[] = [
        { inner: 0, outer: hub.spigotDiameter / 2, from: face - hub.spigotLength, to: face },
        { inner: 0, outer: hub.mountFlangeDiameter / 2, from: face, to: face + hub.mountFlangeThickness },
        { inner: 0, outer: hub.housingDiameter / 2, from: face + hub.mountFlangeThickness, to: back },
      ];
      for (const [k, rings] of [turning, standing].entries()) {
        expectSound(solids[k], about);
        expect(solids[k].chordErrorMm, about).toBeLessThanOrEqual(chordToleranceMm + 1e-3);
        expectRings(
          solids[k],
          corner,
          rings.filter(({ from, to }) => to > from),
          random,
          about,
        );
        expect(Math.abs(solids[k].volumeMm3 / ringsVolume(rings) - 1), about).toBeLessThan(
          (4 / 3) * (chordToleranceMm / Math.min(...rings.map(({ outer }) => outer))) + 1e-6,
        );
      }
      if (hub.studLength > 0) expectSpinsInside(solids[0], corner, random, about);
      expectSpinsInside(solids[1], corner, random, about);
    }
  });

  test('turns studs and mounting bolts toward the rear with clocking', async () => {
    const corner = benchCorner();
    const hub = { ...entryOf(corner, 'hub'), studCount: 3, mountBoltCount: 3, clockingDeg: 90 };
    const [turning, housing] = buildHub(hub, await contextOf(corner));
    const { hubFaceY } = axialStack(corner);
    const at = (x: number, y: number) =>
      applyPoint(vehicleFromWheelAxis(corner.suspension), [x, hubFaceY + y, 0]);
    // Middle of the stud: on its axis, its radius from the surface. A third of a turn away there is no stud in front.
    expect(distanceToMeshMm(turning.shown!, at(-hub.boltCircle / 2, 25))).toBeCloseTo(6, 1);
    expect(distanceToMeshMm(turning.shown!, at(hub.boltCircle / 2, 40))).toBeGreaterThan(20);
    expect(distanceToMeshMm(housing.shown!, at(-hub.mountBoltCircle / 2, -hub.mountDepth))).toBeCloseTo(6, 1);
  });

  test('has studs outboard of the mounting face, housing face and spigot inboard', async () => {
    const corner = benchCorner();
    const { hubFaceY } = axialStack(corner);
    const [turning, housing] = buildHub(entryOf(corner, 'hub'), await contextOf(corner));
    const [hubExtent, housingExtent] = [turning, housing].map(({ mesh }) => extent(mesh, corner).y);
    expect(hubExtent.most - hubFaceY).toBeCloseTo(45, 4);
    expect(hubExtent.least - hubFaceY).toBeCloseTo(-12, 4);
    expect(housingExtent.most - hubFaceY).toBeCloseTo(-12, 4);
    expect(housingExtent.least - hubFaceY).toBeCloseTo(-75 - 20, 4);
  });

  test.each([
    [{ flangeDiameter: 120 }, /flangeDiameter 120\.00 mm must be at least 126\.30 mm/],
    [{ pilotDiameter: 104 }, /pilotDiameter 104\.00 mm must be less than 102\.30 mm/],
    [{ studCount: 12, studDiameter: 30, flangeDiameter: 150 }, /12 studs of 30\.00 mm.*run into each other/],
    [{ mountDepth: 20 }, /mountDepth 20\.00 mm leaves no room/],
    [{ mountFlangeDiameter: 118 }, /mountFlangeDiameter 118\.00 mm must be at least 122\.00 mm/],
  ])('rejects %o', async (change, message) => {
    const corner = benchCorner();
    const context = await contextOf(corner);
    expect(() => buildHub({ ...entryOf(corner, 'hub'), ...change }, context)).toThrow(message);
  });
});
