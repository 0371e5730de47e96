import { describe, expect, test } from 'vitest';
import type { Corner, Entry } from '../../src/design/schema.ts';
import { applyPoint } from '../../src/math/rigid.ts';
import { buildWheel } from '../../src/parts/wheel/build.ts';
import type { BuiltSolid } from '../../src/solids/build.ts';
import { axialStack, vehicleFromWheelAxis } from '../../src/solids/wheelFrame.ts';
import { signedDistanceToCut } from '../oracles/halfPlane.ts';
import { distanceToMeshMm } from '../oracles/meshChecks.ts';
import { benchCorner, contextOf, entryOf } from '../solids/benchCorner.ts';
import { cutAt, extent } from '../solids/turnedChecks.ts';

/** A wheel alone, with its hub face at the offset and the file's defaults except for `change`. */
async function wheelOf(change: Partial<Entry<'wheel'>>): Promise<{ corner: Corner; solid: BuiltSolid }> {
  const corner = benchCorner();
  const wheel = { ...entryOf(corner, 'wheel'), ...change };
  corner.parts = [wheel];
  const [solid] = buildWheel(wheel, await contextOf(corner, 0.02));
  return { corner, solid };
}

/** Radius at which a ray from outside toward the axis, at a given y, first meets metal; by bisection. */
function outsideRadius({ corner, solid }: { corner: Corner; solid: BuiltSolid }, y: number): number {
  const cut = cutAt(solid.mesh, corner, 1e-7);
  let [out, inside] = [400, 0];
  for (let radius = 400; radius > 0; radius -= 1) {
    if (signedDistanceToCut([radius, y], cut) < 0) {
      inside = radius;
      break;
    }
    out = radius;
  }
  for (let k = 0; k < 40; k++) {
    const middle = (out + inside) / 2;
    if (signedDistanceToCut([middle, y], cut) < 0) inside = middle;
    else out = middle;
  }
  return out;
}

/**
 * ISO 4000-2 Table 4, from memory: specified rim diameter D by diameter code, mm. The circumferences are pi x D from
 * the same table, also from memory. Flange outside D + 2 G and well D - 2 H follow by arithmetic.
 */
const SPECIFIED: [code: number, diameter: number, circumference: number | undefined][] = [
  [13, 329.4, 1034.8],
  [14, 354.8, 1114.6],
  [15, 380.2, 1194.4],
  [16, 405.6, 1274.2],
  [17, 436.6, 1371.6],
  [18, 462.0, 1451.4],
  [19, 487.4, 1531.2],
  [20, 512.8, 1611.0],
  [21, 538.2, undefined],
  [22, 563.6, undefined],
];

describe('rim diameters', () => {
  test.each(SPECIFIED)('code %d: bead seat %d mm at the flange', async (code, diameter, circumference) => {
    const wheel = await wheelOf({ diameterCode: code, width: 8 * 25.4, offset: 0, spokeDepth: 0 });
    // The seat falls by 5 degrees from the heel: 0.0875 mm on the radius per mm from the flange.
    const heel = outsideRadius(wheel, 101.6 - 1) + Math.tan((5 * Math.PI) / 180);
    expect(2 * heel).toBeCloseTo(diameter, 2);
    if (circumference !== undefined) expect(Math.PI * 2 * heel).toBeCloseTo(circumference, 0);
  });

  test.each([
    [15, 415.2, 345.6],
    [16, 440.6, 371.0],
    [17, 471.6, 402.0],
    [18, 497.0, 427.4],
    [20, 547.8, 478.2],
  ])('code %d: flange J outside %d mm, well at its least depth %d mm', async (code, flange, well) => {
    const wheel = await wheelOf({ diameterCode: code, width: 8 * 25.4, offset: 0, spokeDepth: 0 });
    expect(2 * extent(wheel.solid.mesh, wheel.corner).radius.most).toBeCloseTo(flange, 3);
    expect(2 * outsideRadius(wheel, 0)).toBeCloseTo(well, 2);
  });
});

/** JIS D 4218:2021 Table 3, modified from ISO 4000-2:2013: flange, width code; G, least P, least H, least L. */
const CONTOURS: [flange: string, width: number, height: number, seat: number, depth: number, well: number][] =
  [
    ['3J', 3, 17.5, 13, 17.3, 16],
    ['3 1/2J', 3.5, 17.5, 15, 17.3, 19],
    ['4J', 4, 17.5, 15, 17.3, 19],
    ['4 1/2J', 4.5, 17.5, 19.5, 17.3, 22],
    ['8J', 8, 17.5, 19.5, 17.3, 22],
    ['4.50B', 4.5, 14.5, 19.5, 15, 22],
    ['6K', 6, 20, 19.5, 20, 22],
  ];

describe('5 degree drop-centre contour', () => {
  test.each(CONTOURS)('%s: seats and well of at least the width and depth in the table', async (...row) => {
    const [, code, height, seat, depth, well] = row;
    const width = code * 25.4;
    const half = width / 2;
    const wheel = await wheelOf({
      diameterCode: 16,
      width,
      offset: 0,
      spokeDepth: -7,
      flangeHeight: height,
      dropDepth: depth,
      dropWidth: well,
    });
    const heel = 405.6 / 2;
    const taper = Math.tan((5 * Math.PI) / 180);
    for (const side of [-1, 1]) {
      // The seat is straight over its whole least width and slopes by 5 degrees.
      for (const from of [0.1, seat / 2, seat - 0.1])
        expect(outsideRadius(wheel, side * (half - from)), `${from} mm in`).toBeCloseTo(
          heel - from * taper,
          2,
        );
      expect(outsideRadius(wheel, side * (half + 1))).toBeCloseTo(heel + height, 2);
      expect(outsideRadius(wheel, side * (well / 2 - 0.1))).toBeCloseTo(heel - depth, 2);
    }
  });

  test('flange J by default: 17.5 mm high, at least 11 mm wide, the well at least 17.3 mm deep and 22 mm wide', () => {
    const wheel = entryOf(benchCorner(), 'wheel');
    expect(Math.abs(wheel.flangeHeight - 17.5)).toBeLessThanOrEqual(1);
    expect(wheel.lip).toBeGreaterThanOrEqual(11);
    expect(wheel.dropDepth).toBeGreaterThanOrEqual(17.3);
    expect(wheel.dropWidth).toBeGreaterThanOrEqual(22);
  });
});

describe('offset and backspacing', () => {
  // By arithmetic: (width + both lips) / 2 + offset, (9 + 1) / 2 + 12 / 25.4 and (8.5 + 0.5) / 2 + 35 / 25.4.
  test.each([
    [9, 12, 0.5, 5.47],
    [8.5, 35, 0.25, 5.88],
  ])('width %d in, offset %d mm, lip %d in: backspacing %d in', async (width, offset, lip, backspacing) => {
    const rim = { width: width * 25.4, lip: lip * 25.4 };
    const byOffset = await wheelOf({ ...rim, offset });
    const { hubFaceY, wheelFaceDepth } = axialStack(byOffset.corner);
    const inboardEdge = extent(byOffset.solid.mesh, byOffset.corner).y.least;
    expect((hubFaceY + wheelFaceDepth - inboardEdge) / 25.4).toBeCloseTo(backspacing, 2);

    const byBackspacing = await wheelOf({ ...rim, offset: undefined, backspacing: backspacing * 25.4 });
    const stack = axialStack(byBackspacing.corner);
    const edge = extent(byBackspacing.solid.mesh, byBackspacing.corner).y.least;
    expect((stack.hubFaceY + stack.wheelFaceDepth - edge) / 25.4).toBeCloseTo(backspacing, 6);
    // The rim's centre plane stays on the wheel-centre hardpoint with either input.
    expect(edge).toBeCloseTo(inboardEdge, 6);
  });
});

describe('bolt circle', () => {
  test('5 x 114.3: holes every 72 degrees from the top, neighbours a chord of 114.3 sin 36 apart', async () => {
    const { corner, solid } = await wheelOf({ offset: 0, boltCircle: 114.3, boltCount: 5, boltHole: 14 });
    // By trigonometry: 57.15 (sin, cos) of multiples of 72 degrees.
    const centres: [number, number][] = [
      [0, 57.15],
      [-54.3529, 17.6603],
      [-33.5919, -46.2353],
      [33.5919, -46.2353],
      [54.3529, 17.6603],
    ];
    const middleY = 6;
    for (const [x, z] of centres) {
      const centre = applyPoint(vehicleFromWheelAxis(corner.suspension), [x, middleY, z]);
      expect(Math.abs(distanceToMeshMm(solid.shown!, centre) - 7)).toBeLessThan(0.02);
    }
    expect(Math.hypot(54.3529, 57.15 - 17.6603)).toBeCloseTo(114.3 * Math.sin(Math.PI / 5), 3);
  });
});
