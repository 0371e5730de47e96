import { describe, expect, test } from 'vitest';
import { BOLT_JOINS } from '../../src/design/fasteners/boltFields.ts';
import { FASTENER_SIZES, readFastenerSize } from '../../src/design/fasteners/fastenerSizes.ts';
import type { Corner, Entry } from '../../src/design/schema.ts';
import { applyPoint } from '../../src/math/rigid.ts';
import type { Vec3 } from '../../src/math/vec.ts';
import { buildBolts } from '../../src/parts/bolts/build.ts';
import { buildSolids } from '../../src/solids/catalogue.ts';
import { hubMountPlaces } from '../../src/solids/fasteners/boltHoles.ts';
import { axialStack, vehicleFromWheelAxis } from '../../src/solids/wheelFrame.ts';
import { closedOutwardProblems, distanceToMeshMm } from '../oracles/meshChecks.ts';
import { between, mulberry32 } from '../oracles/random.ts';
import type { Piece } from '../oracles/roundPieces.ts';
import { benchCorner, boltsOf, contextOf, entryOf, jitteredCorner } from '../solids/benchCorner.ts';
import { expectHonest, expectSound } from '../solids/solidChecks.ts';
import { extent } from '../solids/turnedChecks.ts';

const SEED = 7411;
const pick = <T>(random: () => number, list: readonly T[]): T => list[Math.floor(random() * list.length)];

/** The hub's bolts to the upright as cylinders, from the corner's dimensions and the tables only. */
function hubBoltTruth(corner: Corner, bolts: Entry<'bolts'>): Piece[] {
  const size = readFastenerSize(bolts.size);
  const hub = entryOf(corner, 'hub');
  const upright = entryOf(corner, 'upright');
  const face = axialStack(corner).hubFaceY - hub.mountDepth;
  const [outboard, inboard] = [face + hub.mountFlangeThickness, face - upright.plateThickness];
  const [underHeads, far, way] =
    bolts.headSide === 'inboard' ? [inboard, outboard, -1] : [outboard, inboard, 1];
  const sunk = bolts.counterboreDepth ?? 0;
  const seat = underHeads - way * sunk;
  const washer = bolts.washers ? size.washer.heightMm : 0;
  // Under the thinnest washer a bolt of given length reaches furthest.
  const underHead = bolts.washers && bolts.length !== undefined ? size.washer.leastHeightMm : washer;
  const grip = outboard - inboard - sunk;
  const corners = (flats: number) => flats / Math.sqrt(3);
  const head = bolts.head === 'hex' ? size.hexHead : size.socketHead;
  if (head === undefined) throw new Error('no such head');
  const headRadius = bolts.head === 'hex' ? corners(head.acrossMm) : head.acrossMm / 2;
  const length =
    bolts.length ?? washer + grip + (bolts.nut ? washer + size.nut.heightMm + 2 * size.pitchMm : 0);
  const vehicleFromWheel = vehicleFromWheelAxis(corner.suspension);
  const circle = hub.mountBoltCircle / 2;
  return Array.from({ length: hub.mountBoltCount }, (_, k) => {
    const clock = ((hub.clockingDeg + (360 * k) / hub.mountBoltCount) * Math.PI) / 180;
    const at = (y: number): Vec3 =>
      applyPoint(vehicleFromWheel, [-circle * Math.sin(clock), y, circle * Math.cos(clock)]);
    const rod = (from: number, to: number, radius: number): Piece => ({ from: at(from), to: at(to), radius });
    // Pieces overlap: the part of a face that two pieces share is no surface.
    return [
      rod(seat + way * (washer + head.heightMm), seat + (way * washer) / 2, headRadius),
      rod(seat + way * (washer + head.heightMm / 2), seat + way * (underHead - length), size.diameterMm / 2),
      ...(bolts.washers ? [rod(seat, seat + way * washer, size.washer.acrossMm / 2)] : []),
      ...(bolts.nut && bolts.washers ? [rod(far, far - way * washer, size.washer.acrossMm / 2)] : []),
      ...(bolts.nut
        ? [
            rod(
              far - (way * washer) / 2,
              far - way * (washer + size.nut.heightMm),
              corners(size.nut.acrossMm),
            ),
          ]
        : []),
    ];
  }).flat();
}

/** The smaller thickness under the heads of the hub's bolts, of the two sides. */
const thinnestMm = (corner: Corner): number =>
  Math.min(entryOf(corner, 'hub').mountFlangeThickness, entryOf(corner, 'upright').plateThickness);

describe('bolts', () => {
  test('are closed, outward and have the published dimensions, for random sets with heads on either side', async () => {
    const random = mulberry32(SEED);
    for (let i = 0; i < 25; i++) {
      const corner = jitteredCorner(random);
      Object.assign(entryOf(corner, 'hub'), {
        mountBoltCount: pick(random, [3, 4, 5]),
        mountBoltCircle: between(random, 100, 120),
        clockingDeg: between(random, -180, 180),
      });
      const head = pick(random, ['hex', 'socketHead'] as const);
      const sizes = FASTENER_SIZES.filter(
        ({ diameterMm, socketHead }) => diameterMm < 17 && (head === 'hex' || socketHead !== undefined),
      );
      const bolts = boltsOf({
        joins: 'hubMount',
        size: pick(random, sizes).name,
        head,
        headSide: pick(random, ['inboard', 'outboard']),
        nut: random() < 0.5,
        washers: random() < 0.5,
        length: random() < 0.5 ? undefined : between(random, 50, 90),
        ...(random() < 0.5
          ? {}
          : { counterboreDiameter: 60, counterboreDepth: between(random, 0.2, 0.9) * thinnestMm(corner) }),
      });
      const about = `seed ${SEED}, bolts ${i}: ${JSON.stringify(bolts)}`;
      const chordToleranceMm = between(random, 0.02, 0.2);
      const [solid] = buildBolts(bolts, await contextOf(corner, chordToleranceMm));
      expectSound(solid, about);
      expectHonest(solid, hubBoltTruth(corner, bolts), { chordToleranceMm, random, about });
      expect(closedOutwardProblems(solid.shown!), about).toEqual([]);
      expect([solid.kind, solid.carrier, solid.seats?.length], about).toEqual(['bolts', 'upright', 2]);
    }
  });

  test('are closed and outward for random sets of every kind, including nuts on studs', async () => {
    const random = mulberry32(SEED + 1);
    for (let i = 0; i < 6; i++) {
      const corner = jitteredCorner(random);
      if (random() < 0.5) entryOf(corner, 'caliper').bracket = undefined;
      Object.assign(entryOf(corner, 'caliper'), { clockingDeg: between(random, -180, 180) });
      Object.assign(entryOf(corner, 'rotor'), {
        mount: pick(random, ['overStuds', 'behindFlange']),
        hatBolts: { count: 5, circle: between(random, 90, 140), clockingDeg: between(random, -180, 180) },
      });
      for (const joins of BOLT_JOINS)
        corner.parts.push(
          boltsOf({
            joins,
            nut: random() < 0.5,
            washers: random() < 0.5,
            headSide: pick(random, ['inboard', 'outboard']),
            headAcross: random() < 0.5 ? undefined : between(random, 14, 22),
            headHeight: random() < 0.5 ? undefined : between(random, 5, 12),
            nutAcross: random() < 0.5 ? undefined : between(random, 16, 22),
            nutHeight: random() < 0.5 ? undefined : between(random, 8, 20),
            washerDiameter: between(random, 22, 30),
            washerThickness: between(random, 1, 4),
          }),
        );
      for (const solid of (await buildSolids(corner, 0.1)).filter(({ kind }) => kind === 'bolts'))
        expectSound(solid, `seed ${SEED + 1}, corner ${i}, ${solid.id}`);
    }
  });

  test('are shown with hexagons inside the checked circles', async () => {
    const corner = benchCorner();
    const [solid] = buildBolts(boltsOf({ joins: 'hubMount', washers: false }), await contextOf(corner, 0.01));
    const hub = entryOf(corner, 'hub');
    const { hubFaceY } = axialStack(corner);
    const head = hubFaceY - hub.mountDepth - 12 - 4;
    const off = (mesh: typeof solid.mesh, sideways: number) =>
      distanceToMeshMm(mesh, applyPoint(vehicleFromWheelAxis(corner.suspension), [sideways, head, 55]));
    // On the bolt's axis, in the middle of an 18 mm hexagon: the flats are 9 mm off, the circle 10.39 mm; its foot and
    // its top are nearer (4 and 3.5 mm), so that they are measured to from outside.
    expect(off(solid.mesh, 20)).toBeCloseTo(20 - 18 / Math.sqrt(3), 1);
    expect(off(solid.shown!, 20)).toBeGreaterThanOrEqual(20 - 18 / Math.sqrt(3) - 0.05);
    expect(off(solid.shown!, 20)).toBeLessThanOrEqual(20 - 9 + 0.05);
  });

  test('replace the plain shanks of a caliper at its ears', async () => {
    const corner = benchCorner();
    entryOf(corner, 'caliper').mount.boltLength = 80;
    const bare = await buildSolids(corner, 0.1);
    corner.parts.push(boltsOf({ joins: 'caliperMount', headSide: 'outboard', length: 60 }));
    const solids = await buildSolids(corner, 0.1);
    const caliper = (from: typeof solids) => from.find(({ kind }) => kind === 'caliper')!;
    expect(caliper(solids).volumeMm3).toBeLessThan(caliper(bare).volumeMm3);
    const { hubFaceY, rotorFaces } = axialStack(corner);
    const ear = hubFaceY + rotorFaces(entryOf(corner, 'rotor')).inboard - 34 + 15;
    const y = extent(solids.find(({ kind }) => kind === 'bolts')!.mesh, corner).y;
    // Head up to 7.79 mm on a 2.7 mm washer; 60 mm under the head on one of 2.3 mm.
    expect(y.most - ear).toBeCloseTo(10.49, 3);
    expect(y.least - ear).toBeCloseTo(2.3 - 60, 3);
  });

  test('belong to the first caliper; a second one keeps its plain shanks', async () => {
    const corner = benchCorner();
    entryOf(corner, 'caliper').mount.boltLength = 80;
    corner.parts.push({ ...structuredClone(entryOf(corner, 'caliper')), id: 'parking', clockingDeg: -90 });
    const bare = await buildSolids(corner, 0.1);
    corner.parts.push(boltsOf({ joins: 'caliperMount' }));
    const solids = await buildSolids(corner, 0.1);
    const volume = (from: typeof solids, id: string) => from.find((solid) => solid.id === id)?.volumeMm3 ?? 0;
    expect(volume(solids, 'caliper')).toBeLessThan(volume(bare, 'caliper'));
    expect(volume(solids, 'parking')).toBe(volume(bare, 'parking'));
  });

  test('as nuts on studs are on the outboard face of the wheel and have no head', async () => {
    const corner = benchCorner();
    corner.parts.push(boltsOf({ joins: 'wheel', washers: false, nutHeight: 15 }));
    const solids = await buildSolids(corner, 0.1);
    const nuts = solids.find(({ kind }) => kind === 'bolts')!;
    const { hubFaceY, wheelFaceDepth } = axialStack(corner);
    const { y, radius } = extent(nuts.mesh, corner);
    expect(y.least - hubFaceY).toBeCloseTo(wheelFaceDepth + 12, 1);
    expect(y.most - y.least).toBeCloseTo(15, 1);
    expect(radius.most).toBeCloseTo(57.15 + 18 / Math.sqrt(3), 1);
    expect(nuts.seats?.map(({ solidId }) => solidId)).toEqual(['wheel', 'hub']);
  });

  test.each([
    // Hub's flange 12 mm, hat 7 mm: from the hat's outer face to the back of the flange, or from the hub's face to the
    // hat's inboard face.
    ['overStuds', 7, -12],
    ['behindFlange', 0, -19],
  ] as const)(
    'of a rotor %s clamp hat and flange, and turn with the wheel',
    async (mount, outboard, inboard) => {
      const corner = benchCorner();
      Object.assign(entryOf(corner, 'rotor'), { mount, hatBolts: { count: 6, circle: 130, clockingDeg: 0 } });
      const bolts = boltsOf({ joins: 'rotor', size: 'M8', washers: false });
      const [solid] = buildBolts(bolts, await contextOf(corner));
      const { hubFaceY } = axialStack(corner);
      const { y, radius } = extent(solid.mesh, corner);
      // M8: head up to 5.54 mm high, 13 mm across flats; the bolt ends flush with the last part.
      expect(y.most - hubFaceY).toBeCloseTo(outboard, 4);
      expect(y.least - hubFaceY).toBeCloseTo(inboard - 5.54, 4);
      expect(radius.most).toBeCloseTo(65 + 13 / Math.sqrt(3), 1);
      expect(solid.carrier).toBe('wheel');
      expect(solid.seats?.map(({ solidId }) => solidId)).toEqual(['hub', 'rotor']);
    },
  );

  test('in a rectangle have the given distances, start toward larger clocking, and turn with the clocking', () => {
    const hub = { ...entryOf(benchCorner(), 'hub'), mountRectangle: { width: 80, height: 60 } };
    expect(hubMountPlaces(hub)).toEqual([
      [-40, 30],
      [-40, -30],
      [40, -30],
      [40, 30],
    ]);
    const turned = hubMountPlaces({ ...hub, clockingDeg: 90 });
    // The place straight above moves to the rear, x negative; the rear one moves below.
    expect(turned[0][0]).toBeCloseTo(-30, 9);
    expect(turned[0][1]).toBeCloseTo(-40, 9);
  });

  test.each([
    [{ length: 10, nut: true }, /length 10\.00 mm does not reach the nut: it must be more than 28\.60 mm/],
    [{ length: 2 }, /length 2\.00 mm does not reach into the last part that the bolts hold/],
    // Through the plate, 12 mm, and a washer of 2.3 mm.
    [{ length: 14.2 }, /length 14\.20 mm does not reach .*: it must be more than 14\.30 mm/],
    [{ length: 14.2, headSide: 'outboard' }, /it must be more than 14\.30 mm/],
    [
      { counterboreDiameter: 40, counterboreDepth: 12 },
      /counterboreDepth 12\.00 mm must be less than 12\.00 mm, the thickness of the part under the heads/,
    ],
    [{ size: 'M18', head: 'socketHead' }, /no table has a socket head of M18/],
    [{ size: 'M13' }, /is not a known bolt size/],
  ] as const)('rejects %o', async (change, message) => {
    const context = await contextOf(benchCorner());
    expect(() => buildBolts(boltsOf({ joins: 'hubMount', ...change }), context)).toThrow(message);
  });

  test('are rejected if the socket is too short for the thread and its drive', async () => {
    const corner = benchCorner();
    const nuts = (toolLength: number) => boltsOf({ joins: 'wheel', tool: 'socket', toolLength });
    // Hat 7 mm, pad 12 mm, and a washer of 2.7 mm, the most; 17 mm for the drive.
    const seatMm = axialStack(corner).wheelFaceDepth + 12 + 2.7;
    entryOf(corner, 'hub').studLength = seatMm + 50;
    const context = await contextOf(corner);
    expect(() => buildBolts(nuts(66.9), context)).toThrow(
      /toolLength 66\.90 mm is too short .* ends 50\.00 mm from the nut's seat, .*\. It must be 67\.00 mm or more/,
    );
    expect(() => buildBolts(nuts(67), context)).not.toThrow();
  });

  test('are rejected if the studs end before the nut', async () => {
    const corner = benchCorner();
    const nuts = boltsOf({ joins: 'wheel' });
    // Hat 7 mm, pad 12 mm, and a washer of 2.3 mm, the least.
    const leastMm = axialStack(corner).wheelFaceDepth + 12 + 2.3;
    entryOf(corner, 'hub').studLength = leastMm;
    const context = await contextOf(corner);
    expect(() => buildBolts(nuts, context)).toThrow(
      `the hub's studLength ${leastMm.toFixed(2)} mm does not reach the nut: it must be more than ${leastMm.toFixed(2)} mm`,
    );
    entryOf(corner, 'hub').studLength = leastMm + 0.01;
    expect(() => buildBolts(nuts, context)).not.toThrow();
  });
});
