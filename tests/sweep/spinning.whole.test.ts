import { describe, expect, test } from 'vitest';
import { prepareBody } from '../../src/clearance/body.ts';
import { measure, PairQuery } from '../../src/clearance/query.ts';
import { applyPoint, identity, invert, rotationAbout } from '../../src/math/rigid.ts';
import { distance, type Vec3 } from '../../src/math/vec.ts';
import { spinAxis } from '../../src/mechanism/spinAxis.ts';
import { buildSolids } from '../../src/solids/catalogue.ts';
import { vehicleFromWheelAxis } from '../../src/solids/wheelFrame.ts';
import { DEFAULT_SETTINGS } from '../../src/sweep/result.ts';
import { setUp } from '../../src/sweep/setUp.ts';
import { type CornerInput, type EntryInput, minimalCorner } from '../design/fixtures.ts';
import { readDesign } from '../design/readDesign.ts';
import { benchCorner } from '../solids/benchCorner.ts';

const SETTINGS = { ...DEFAULT_SETTINGS, chordToleranceMm: 0.2 };

/** A point of the bench corner's caliper body, turned by part of a wheel turn, vehicle coordinates. */
async function turnedCaliperPoint(turnRad: number): Promise<[number, number, number]> {
  const corner = benchCorner();
  const { mesh } = (await buildSolids(corner, 0.2)).find(({ id }) => id === 'caliper')!;
  const wheelFromVehicle = invert(vehicleFromWheelAxis(corner.suspension));
  const points = Array.from({ length: mesh.positions.length / 3 }, (_, i): Vec3 => {
    const [x, y, z] = mesh.positions.subarray(3 * i, 3 * i + 3);
    return [x, y, z];
  });
  // The vertex furthest from the axis is well clear of rotor and hub.
  const radius = (p: Vec3) => {
    const [x, , z] = applyPoint(wheelFromVehicle, p);
    return Math.hypot(x, z);
  };
  const point = points.reduce((best, p) => (radius(p) > radius(best) ? p : best));
  const { wheelCentre } = corner.suspension.hardpoints;
  return [...applyPoint(rotationAbout(wheelCentre, spinAxis(corner.suspension), turnRad), point)];
}

const lug = (
  id: string,
  centre: [number, number, number],
  carrier: 'wheel' | 'upright' = 'wheel',
): EntryInput<'box'> => ({ kind: 'box', id, carrier, centre, size: [8, 8, 8] });

async function opened(...extra: CornerInput['parts']) {
  const file = minimalCorner();
  file.parts.push(...extra);
  const design = readDesign(file);
  const setup = await setUp(design, SETTINGS);
  const solidOf = (id: string) => setup.solids.find((solid) => solid.id === id)!;
  const pairOf = (one: string, other: string) => {
    const k = setup.pairs.findIndex(({ a, b }) => {
      const ids = [setup.solids[a].id, setup.solids[b].id];
      return ids.includes(one) && ids.includes(other);
    });
    const query = new PairQuery(setup.bodies[k].a, setup.bodies[k].b);
    query.run(identity(), Number.POSITIVE_INFINITY);
    return { query, moves: setup.pairs[k].moves };
  };
  return { solidOf, pairOf };
}

describe('a part on the wheel that is not a body of revolution', () => {
  test('touches the caliper if it does so at any turn of the wheel', async () => {
    for (const turnDeg of [-150, 110, 180]) {
      const centre = await turnedCaliperPoint((turnDeg * Math.PI) / 180);
      const { solidOf, pairOf } = await opened(lug('lug', centre));
      const solid = solidOf('lug');
      const atRest = measure(
        prepareBody(solid.shown!, { chordErrorMm: 0 }),
        prepareBody(solidOf('caliper').mesh, { chordErrorMm: 0 }),
        identity(),
      );
      if (atRest.kind !== 'separated') throw new Error(`${turnDeg} degrees: ${atRest.kind}`);
      expect(atRest.distanceMm, `${turnDeg} degrees`).toBeGreaterThan(40);
      const { query, moves } = pairOf('lug', 'caliper');
      expect(query.kind, `${turnDeg} degrees`).toBe('overlapping');
      // The caliper's corner is at the middle of the box: the depth is half the box's side, less the chord error.
      expect(query.distanceMm, `${turnDeg} degrees`).toBeLessThan(-1);
      expect(moves).toBe(false);
    }
  });

  test('does not spin if it is on the upright', async () => {
    const { solidOf, pairOf } = await opened(lug('lug', await turnedCaliperPoint(Math.PI), 'upright'));
    expect(solidOf('lug').shown).toBeUndefined();
    expect(pairOf('lug', 'caliper').query.kind).toBe('separated');
  });

  test('is measured at rest against another part on the wheel', async () => {
    const [here, there] = [await turnedCaliperPoint(Math.PI), await turnedCaliperPoint(2.5)];
    const { pairOf } = await opened(lug('one', here), lug('other', there));
    const { query } = pairOf('one', 'other');
    expect(query.kind).toBe('separated');
    const apart = distance(here, there);
    expect(query.distanceMm).toBeLessThan(apart - 8);
    expect(query.distanceMm).toBeGreaterThan(apart - 8 * Math.sqrt(3));
  });

  test('has a chord error within the requested tolerance', async () => {
    const { solidOf } = await opened(
      lug('lug', await turnedCaliperPoint(Math.PI)),
      { kind: 'tube', id: 'stem', carrier: 'wheel', from: [150, 860, 470], to: [140, 875, 450], diameter: 8 },
      {
        kind: 'plate',
        id: 'tab',
        carrier: 'wheel',
        outline: [
          [100, 850, 500],
          [130, 850, 500],
          [100, 870, 520],
        ],
        thickness: 3,
      },
    );
    for (const id of ['lug', 'stem', 'tab']) {
      const { shown, chordErrorMm, mesh } = solidOf(id);
      expect(shown, id).toBeDefined();
      expect(chordErrorMm, id).toBeLessThanOrEqual(SETTINGS.chordToleranceMm + 1e-3);
      expect(mesh.triangles.length, id).toBeGreaterThan(shown!.triangles.length);
    }
  });
});
