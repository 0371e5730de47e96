import { describe, expect, test } from 'vitest';
import type { Corner, Entry } from '../../src/design/schema.ts';
import { applyPoint } from '../../src/math/rigid.ts';
import { buildTyre } from '../../src/parts/tyre/build.ts';
import { buildWheel } from '../../src/parts/wheel/build.ts';
import { vehicleFromWheelAxis } from '../../src/solids/wheelFrame.ts';
import { atTurn, type Beside } from '../oracles/halfPlane.ts';
import { distanceToMeshMm } from '../oracles/meshChecks.ts';
import { between, mulberry32 } from '../oracles/random.ts';
import { benchCorner, contextOf, entryOf, jitteredCorner } from '../solids/benchCorner.ts';
import { expectSound } from '../solids/solidChecks.ts';
import { cutAt, expectOnSurface, extent } from '../solids/turnedChecks.ts';

const SEED = 7405;
/** A tyre is meshed to four times the requested tolerance. */
const COARSENESS = 4;

interface MountedTyre {
  corner: Corner;
  tyre: Entry<'tyre'>;
  /** Bead seat, flange and tread radius; half widths of rim, section and tread. */
  heel: number;
  flange: number;
  outer: number;
  rim: number;
  widest: number;
  tread: number;
}

function randomTyre(random: () => number, growth: number): MountedTyre {
  const corner = jitteredCorner(random);
  const wheel = entryOf(corner, 'wheel');
  wheel.width = Math.round(between(random, 12, 20)) * 12.7;
  wheel.offset = between(random, -50, 50);
  wheel.dropWidth = 40;
  wheel.spokeDepth = -wheel.offset;
  const tyre = entryOf(corner, 'tyre');
  const widest = between(random, wheel.width / 2 + 1, wheel.width / 2 + 60);
  const outer = between(random, 300, 470);
  const heel = 436.6 / 2;
  const leastTread = 2 * widest - (outer - heel);
  tyre.overallDiameter = 2 * outer;
  tyre.sectionWidth = 2 * widest;
  tyre.treadWidth = Math.max(leastTread, 2 * widest * between(random, 0.65, 0.95));
  tyre.growth = growth;
  return {
    corner,
    tyre,
    heel,
    flange: heel + wheel.flangeHeight,
    outer,
    rim: wheel.width / 2,
    widest,
    tread: tyre.treadWidth / 2,
  };
}

/** A circle through (0, 0) with its tangent there along the radius, and through (across, up) from the widest place. */
function halfWidth({ heel, flange, outer, rim, widest, tread }: MountedTyre, radius: number): number {
  const middle = (heel + outer) / 2;
  const along = Math.abs(radius - middle);
  const upward = radius >= middle;
  const up = upward ? outer - middle : middle - flange;
  const across = upward ? widest - tread : Math.min(widest - rim, up);
  const circle = (across ** 2 + up ** 2) / (2 * across);
  return widest - circle + Math.sqrt(circle ** 2 - along ** 2);
}

/** Unit normal out of the sidewall at a radius, by central difference, as [toward the tread, outboard]. */
function normal(mounted: MountedTyre, radius: number): [number, number] {
  const step = 1e-4;
  const slope = (halfWidth(mounted, radius + step) - halfWidth(mounted, radius - step)) / (2 * step);
  const size = Math.hypot(1, slope);
  return [-slope / size, 1 / size];
}

describe('a tyre', () => {
  test('is closed, with tread and sidewalls on their arcs, and growth square to the surface, for random tyres', async () => {
    const random = mulberry32(SEED);
    for (let i = 0; i < 20; i++) {
      const growth = i % 2 === 0 ? 0 : between(random, 1, 12);
      const mounted = randomTyre(random, growth);
      const { corner, tyre, outer, widest, tread, heel, flange } = mounted;
      const chordToleranceMm = between(random, 0.02, 0.1);
      const [solid] = buildTyre(tyre, await contextOf(corner, chordToleranceMm));
      const about = `seed ${SEED}, tyre ${i}: ${JSON.stringify({ ...mounted, corner: undefined })}`;
      expectSound(solid, about);
      expect(solid.chordErrorMm, about).toBeLessThanOrEqual(COARSENESS * chordToleranceMm + 1e-3);
      expect(solid.carrier, about).toBe('wheel');

      const places: Beside[] = [
        [outer + growth, tread * between(random, -1, 1)],
        [heel, mounted.rim * between(random, -1, 1)],
      ];
      for (let k = 0; k < 12; k++) {
        const radius = between(random, flange + 0.01, outer - 0.01);
        const [up, out] = normal(mounted, radius);
        const side = random() < 0.5 ? -1 : 1;
        places.push([radius + growth * up, side * (halfWidth(mounted, radius) + growth * out)]);
      }
      expectOnSurface(solid, corner, places, random, about);

      const { radius, y } = extent(solid.mesh, corner);
      expect(radius.most, about).toBeCloseTo(outer + growth, 3);
      for (const reach of [y.most, -y.least]) {
        expect(reach, about).toBeLessThanOrEqual(widest + growth + 1e-3);
        expect(reach, about).toBeGreaterThanOrEqual(widest + growth - solid.chordErrorMm);
      }
    }
  });

  test('approaches the volume 2 pi times the integral of radius x width from below with finer tolerances', async () => {
    const mounted = randomTyre(mulberry32(SEED), 0);
    const { corner, tyre, heel, flange, outer, rim } = mounted;
    const steps = 20_000;
    let truth = Math.PI * (flange ** 2 - heel ** 2) * 2 * rim;
    for (let k = 0; k < steps; k++) {
      const radius = flange + ((outer - flange) * (k + 0.5)) / steps;
      truth += (2 * Math.PI * radius * 2 * halfWidth(mounted, radius) * (outer - flange)) / steps;
    }
    const short = async (toleranceMm: number) =>
      1 - buildTyre(tyre, await contextOf(corner, toleranceMm))[0].volumeMm3 / truth;
    const [coarse, fine] = [await short(0.2), await short(0.025)];
    expect(fine).toBeGreaterThan(0);
    expect(fine).toBeLessThan(1e-3);
    expect(coarse / fine).toBeGreaterThan(6);
    expect(coarse / fine).toBeLessThan(10.5);
  });

  test('grows by the given amount everywhere on its outside', async () => {
    const random = mulberry32(SEED + 1);
    for (let i = 0; i < 6; i++) {
      const growth = between(random, 2, 15);
      const plain = randomTyre(random, 0);
      const context = await contextOf(plain.corner, 0.05);
      const [before] = buildTyre(plain.tyre, context);
      const [after] = buildTyre({ ...plain.tyre, growth }, context);
      const vehicleFromWheel = vehicleFromWheelAxis(plain.corner.suspension);
      const about = `seed ${SEED + 1}, tyre ${i}: growth ${growth}`;
      for (const [[radius, y]] of cutAt(after.mesh, plain.corner, 0.3)) {
        // Above the flange and its own growth the outside is a parallel surface; below it is closed to the rim.
        if (radius < plain.flange + growth) continue;
        const off = distanceToMeshMm(before.mesh, applyPoint(vehicleFromWheel, atTurn([radius, y], 0.3)));
        expect(Math.abs(off - growth), `${about} at ${radius}, ${y}`).toBeLessThan(
          before.chordErrorMm + after.chordErrorMm,
        );
      }
    }
  });

  test('is built from the designation 245/65R17 alone, with a tread of four fifths of the section', async () => {
    const corner = benchCorner();
    const tyre = { ...entryOf(corner, 'tyre'), growth: 0 };
    const [solid] = buildTyre(tyre, await contextOf(corner));
    const { radius, y } = extent(solid.mesh, corner);
    expect(2 * radius.most).toBeCloseTo(17 * 25.4 + 2 * 0.65 * 245, 3);
    expect(y.most - y.least).toBeCloseTo(245, 0);
    expectOnSurface(solid, corner, [[radius.most, 0.4 * 245 - 0.01]], mulberry32(SEED), '245/65R17');
    expect(radius.least).toBeGreaterThan(436.6 / 2 - 0.25);
  });

  test('does not reach into the barrel, and is in the plane of the rim', async () => {
    const corner = benchCorner();
    corner.suspension.hubFace = -30;
    const context = await contextOf(corner);
    const [tyre] = buildTyre(entryOf(corner, 'tyre'), context);
    const [wheel] = buildWheel(entryOf(corner, 'wheel'), context);
    const [ofTyre, ofWheel] = [tyre, wheel].map(({ mesh }) => extent(mesh, corner));
    // Hub face -30, hat 7, offset 25: the rim's plane is at -48.
    expect((ofTyre.y.most + ofTyre.y.least) / 2).toBeCloseTo(-48, 3);
    expect((ofWheel.y.most + ofWheel.y.least) / 2).toBeCloseTo(-48, 3);
    const inside = 436.6 / 2 - 10;
    expect(ofTyre.radius.least).toBeGreaterThan(inside);
  });

  test('is as wide as its rim if the section is narrower', async () => {
    const corner = benchCorner();
    const tyre = { ...entryOf(corner, 'tyre'), growth: 0, sectionWidth: 190, treadWidth: 170 };
    const [solid] = buildTyre(tyre, await contextOf(corner));
    expectSound(solid, 'stretched');
    expect(extent(solid.mesh, corner).y.most).toBeCloseTo(101.6, 1);
  });

  test.each([
    [{ designation: '245/65R16' }, /designation "245\/65R16" is for a rim of 16 in.*diameterCode is 17/],
    [{ designation: 'big' }, /designation "big" is not a tyre size/],
    [{ overallDiameter: 500 }, /500\.00 mm leaves no sidewall.*more than 506\.60 mm/],
    [{ treadWidth: 260 }, /treadWidth 260\.00 mm cannot be more than the section width 245\.00 mm/],
    [{ treadWidth: 60 }, /treadWidth 60\.00 mm is too narrow.*at least 88\.15 mm/],
  ])('rejects %o', async (change, message) => {
    const corner = benchCorner();
    const context = await contextOf(corner);
    expect(() => buildTyre({ ...entryOf(corner, 'tyre'), ...change }, context)).toThrow(message);
  });

  test('rejects a corner without a wheel', async () => {
    const corner = benchCorner();
    corner.parts = corner.parts.filter(({ kind }) => kind !== 'wheel');
    const context = await contextOf(corner);
    expect(() => buildTyre(entryOf(corner, 'tyre'), context)).toThrow(/add a part of kind "wheel"/);
  });
});
