import { describe, expect, test } from 'vitest';
import type { Corner, Entry } from '../../src/design/schema.ts';
import { applyPoint } from '../../src/math/rigid.ts';
import { buildWheel } from '../../src/parts/wheel/build.ts';
import { axialStack, vehicleFromWheelAxis } from '../../src/solids/wheelFrame.ts';
import { sweptVolumeMm3 } from '../oracles/halfPlane.ts';
import { distanceToMeshMm } from '../oracles/meshChecks.ts';
import { between, mulberry32 } from '../oracles/random.ts';
import { benchCorner, contextOf, entryOf, jitteredCorner } from '../solids/benchCorner.ts';
import { expectSound } from '../solids/solidChecks.ts';
import { cutAt, expectOnSurface, expectSpinsInside, extent } from '../solids/turnedChecks.ts';

const SEED = 7404;
const CODES = [13, 14, 15, 16, 17, 18, 19, 20, 22];
/** Specified rim diameters by code. ISO 4000-2 Table 4, from memory. */
const RIM_DIAMETERS = [329.4, 354.8, 380.2, 405.6, 436.6, 462, 487.4, 512.8, 563.6];

interface RandomWheel {
  corner: Corner;
  wheel: Entry<'wheel'>;
  rimDiameter: number;
}

function randomWheel(random: () => number): RandomWheel {
  const corner = jitteredCorner(random);
  const pick = Math.floor(CODES.length * random());
  const rimDiameter = RIM_DIAMETERS[pick];
  const width = Math.round(between(random, 11, 24)) * 12.7;
  const dropDepth = between(random, 15, 30);
  const wall = between(random, 3, 8);
  const dropWidth = between(random, 22, width - 2 * (19.5 + 9) - 1);
  const room = width / 2 - 19.5 - 9 - dropWidth / 2;
  const offset = between(random, -60, 60);
  // The disc meets the rim anywhere between the flanges.
  const spokeDepth = -offset + between(random, -width / 2, width / 2 - 20);
  const wheel: Entry<'wheel'> = {
    ...entryOf(corner, 'wheel'),
    diameterCode: CODES[pick],
    width,
    offset,
    lip: between(random, 6, 14),
    flangeHeight: between(random, 14, 20),
    wall,
    dropDepth,
    dropWidth,
    dropPlace: between(random, -room, room),
    padThickness: between(random, 8, 20),
    padDiameter: between(random, 140, 170),
    spokeDepth,
    spokeThickness: between(random, 8, 25),
    spokes: Math.floor(between(random, 0, 12)),
    spokeWidth: between(random, 15, 60),
    boltCircle: between(random, 98, 120),
    boltCount: 4 + Math.floor(3 * random()),
    centreBore: between(random, 54, 75),
  };
  corner.parts[corner.parts.findIndex(({ id }) => id === wheel.id)] = wheel;
  return { corner, wheel, rimDiameter };
}

describe('a wheel', () => {
  test('is closed, with flanges, seats, well and pad in place, and the shown shape inside the swept one, for random wheels', async () => {
    const random = mulberry32(SEED);
    for (let i = 0; i < 24; i++) {
      const { corner, wheel, rimDiameter } = randomWheel(random);
      const chordToleranceMm = between(random, 0.03, 0.2);
      const [solid] = buildWheel(wheel, await contextOf(corner, chordToleranceMm));
      const about = `seed ${SEED}, wheel ${i}: ${JSON.stringify(wheel)}`;
      expectSound(solid, about);
      expect(solid.chordErrorMm, about).toBeLessThanOrEqual(chordToleranceMm + 1e-3);
      expect(solid.carrier, about).toBe('wheel');
      const stack = axialStack(corner);
      const faceY = stack.hubFaceY + stack.wheelFaceDepth;
      // Offset: mounting face outboard of the centre plane positive; without a hub face given, the plane is at 0.
      expect(faceY, about).toBeCloseTo(wheel.offset!, 9);
      const half = wheel.width / 2;
      const heel = rimDiameter / 2;
      const { radius, y } = extent(solid.mesh, corner);
      expect(radius.most, about).toBeCloseTo(heel + wheel.flangeHeight, 3);
      expect(radius.least, about).toBeGreaterThanOrEqual(wheel.centreBore / 2 - chordToleranceMm);
      const discTo = faceY + Math.max(wheel.padThickness, wheel.spokeDepth + wheel.spokeThickness);
      const discFrom = faceY + Math.min(0, wheel.spokeDepth);
      expect(y.most, about).toBeLessThanOrEqual(Math.max(half + wheel.lip, discTo) + 1e-3);
      expect(y.least, about).toBeGreaterThanOrEqual(Math.min(-half - wheel.lip, discFrom) - 1e-3);

      const well = heel - wheel.dropDepth;
      const across = wheel.dropWidth / 2;
      const seat = Math.tan((5 * Math.PI) / 180);
      expectOnSurface(
        solid,
        corner,
        [
          [heel + wheel.flangeHeight, half + wheel.lip * random()],
          [heel + wheel.flangeHeight, -half - wheel.lip * random()],
          [heel + wheel.flangeHeight * random(), half],
          [heel + wheel.flangeHeight * random(), -half],
          [heel - 10 * seat, half - 10],
          [heel - 10 * seat, -half + 10],
          [well, wheel.dropPlace + between(random, -across, across)],
          [between(random, (wheel.boltCircle + 20) / 2, wheel.padDiameter / 2), faceY],
          [wheel.centreBore / 2, faceY + wheel.padThickness * random()],
        ],
        random,
        about,
      );
      expectSpinsInside(solid, corner, random, about);
    }
  });

  test('has its inside one wall thickness under the tyre side, square to it', async () => {
    const corner = benchCorner();
    const [solid] = buildWheel(entryOf(corner, 'wheel'), await contextOf(corner));
    const heel = 436.6 / 2;
    // Inboard of the disc: under the well, and under the seat, where square to the taper is wall / cos 5 along the radius.
    const taper = (5 * Math.PI) / 180;
    expectOnSurface(
      solid,
      corner,
      [
        [heel - 17.3 - 4, 0],
        [heel - 17.3 - 4, -30],
        [heel - 10 * Math.tan(taper) - 4 / Math.cos(taper), -101.6 + 10],
      ],
      mulberry32(SEED),
      'bench wheel',
    );
  });

  test('has a disc straight from the pad to the rim, and the full disc as swept body', async () => {
    const corner = benchCorner();
    const wheel = { ...entryOf(corner, 'wheel'), spokes: 5 };
    const [solid] = buildWheel(wheel, await contextOf(corner));
    const faceY = 25;
    const heel = 436.6 / 2;
    const along = 0.5;
    const radius = 85 + (heel - 85) * along;
    expectOnSurface(
      solid,
      corner,
      [
        [radius, faceY + 25 * along],
        [radius, faceY + 12 + (25 + 14 - 12) * along],
      ],
      mulberry32(SEED),
      'bench wheel with spokes',
    );
    // The spoke straight above: both its sides, 45 mm apart, halfway through its thickness. Beside it a gap.
    const at = (x: number) => applyPoint(vehicleFromWheelAxis(corner.suspension), [x, faceY + 19, radius]);
    expect(distanceToMeshMm(solid.shown!, at(22.5))).toBeLessThan(1e-3);
    expect(distanceToMeshMm(solid.shown!, at(-22.5))).toBeLessThan(1e-3);
    expect(distanceToMeshMm(solid.shown!, at(60))).toBeGreaterThan(20);
  });

  test('has the volume of the revolved outline less the chords of the circle, and approaches it with their square', async () => {
    const corner = benchCorner();
    const wheel = entryOf(corner, 'wheel');
    const volume = async (toleranceMm: number) =>
      buildWheel(wheel, await contextOf(corner, toleranceMm))[0].volumeMm3;
    const [coarse, middle, fine] = [await volume(0.4), await volume(0.1), await volume(0.025)];
    const [solid] = buildWheel(wheel, await contextOf(corner, 0.025));
    // Just beside a corner of the polygon the cut is the true outline.
    const truth = sweptVolumeMm3(cutAt(solid.mesh, corner, 1e-7));
    expect(fine / truth).toBeLessThan(1);
    expect(fine / truth).toBeGreaterThan(1 - (4 / 3) * (0.025 / (436.6 / 2)) - 1e-6);
    expect((truth - coarse) / (truth - middle)).toBeGreaterThan(3.6);
    expect((truth - coarse) / (truth - middle)).toBeLessThan(4.4);
  });

  test('replaces the contour by the measured inside of the barrel, and only there', async () => {
    const random = mulberry32(SEED + 1);
    for (let i = 0; i < 20; i++) {
      const { corner, wheel, rimDiameter } = randomWheel(random);
      const offset = wheel.offset!;
      const heel = rimDiameter / 2;
      const from = -wheel.width / 2 - wheel.lip;
      const to = Math.max(from + 30, -wheel.width / 2 + between(random, 30, wheel.width - 40));
      const count = 2 + Math.floor(4 * random());
      wheel.innerBarrel = Array.from({ length: count }, (_, k) => ({
        depth: from + ((to - from) * k) / (count - 1) - offset,
        radius: heel - between(random, 4, 40),
      }));
      // The disc is beyond the stations, so that they are free.
      wheel.spokeDepth = wheel.width / 2 - 25 - offset;
      wheel.padDiameter = 145;
      const [solid] = buildWheel(wheel, await contextOf(corner, 0.1));
      const about = `seed ${SEED + 1}, wheel ${i}: ${JSON.stringify(wheel)}`;
      expectSound(solid, about);
      const free = wheel.innerBarrel.slice(0, -1);
      const places = free.map(({ depth, radius }, k): [number, number] => {
        const next = wheel.innerBarrel![k + 1];
        const s = random();
        return [radius + s * (next.radius - radius), offset + depth + s * (next.depth - depth)];
      });
      const { faceY, spokesFrom } = { faceY: offset, spokesFrom: offset + Math.min(0, wheel.spokeDepth) };
      const inboardOfDisc = places.filter(([, y]) => y < Math.min(faceY, spokesFrom) - 1);
      expectOnSurface(solid, corner, inboardOfDisc, random, about);
      expectSpinsInside(solid, corner, random, about);
    }
  });

  test.each([
    [{ dropWidth: 190 }, /drop centre.*does not fit between the bead seats.*width 203\.20 mm/],
    [{ dropPlace: -60 }, /drop centre.*dropPlace −60\.00 mm.*does not fit/],
    [{ dropDepth: 1 }, /dropDepth 1\.00 mm does not reach below the bead seats/],
    [{ padDiameter: 410 }, /padDiameter 410\.00 mm reaches into the barrel/],
    [{ padDiameter: 120 }, /padDiameter 120\.00 mm must be more than 128\.30 mm/],
    [{ centreBore: 105 }, /centreBore 105\.00 mm must be less than 100\.30 mm/],
    [{ centreBore: 180 }, /centreBore 180\.00 mm.*less than padDiameter/],
    [{ boltCount: 12, boltHole: 30 }, /12 bolt holes of 30\.00 mm.*run into each other/],
    [{ spokeDepth: 130 }, /the disc does not meet the barrel: spokeDepth 130\.00 mm/],
    [
      {
        innerBarrel: [
          { depth: -170, radius: 200 },
          { depth: 0, radius: 200 },
        ],
      },
      /innerBarrel\[0\]\.depth −170\.00 mm/,
    ],
    [
      {
        innerBarrel: [
          { depth: -100, radius: 400 },
          { depth: 0, radius: 200 },
        ],
      },
      /innerBarrel\[0\]\.radius 400\.00 mm/,
    ],
    [
      {
        innerBarrel: [
          { depth: 0, radius: 200 },
          { depth: -100, radius: 200 },
        ],
      },
      /innerBarrel\[1\]\.depth.*not outboard/,
    ],
  ])('rejects %o', async (change, message) => {
    const corner = benchCorner();
    const context = await contextOf(corner);
    expect(() => buildWheel({ ...entryOf(corner, 'wheel'), ...change }, context)).toThrow(message);
  });
});
