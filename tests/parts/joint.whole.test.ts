import { describe, expect, test } from 'vitest';
import { prepareBody } from '../../src/clearance/body.ts';
import { measure } from '../../src/clearance/query.ts';
import type { Corner, Entry, JointPlace } from '../../src/design/schema.ts';
import { doubleWishboneRack } from '../../src/layouts/doubleWishboneRack/layout.ts';
import { rotationAbout } from '../../src/math/rigid.ts';
import { addScaled, cross, dot, midpoint, normalize, sub, type Vec3 } from '../../src/math/vec.ts';
import { buildJoint } from '../../src/parts/joint/build.ts';
import { housingAxis } from '../../src/solids/jointPlace.ts';
import { distanceToMeshMm } from '../oracles/meshChecks.ts';
import { between, mulberry32 } from '../oracles/random.ts';
import { benchCorner, contextOf, entryOf, jitteredCorner, randomPoint } from '../solids/benchCorner.ts';
import { expectSound } from '../solids/solidChecks.ts';

const JOINT_PLACES = Object.keys(doubleWishboneRack.joints);

const SEED = 4105;

function randomJoint(random: () => number, at: JointPlace): Entry<'joint'> {
  const ballDiameter = between(random, 12, 45);
  const form = (['ball', 'cup', 'rodEnd'] as const)[Math.floor(3 * random())];
  return {
    kind: 'joint',
    id: 'joint',
    allowance: 0,
    at,
    form,
    ballDiameter,
    housingDiameter: ballDiameter * between(random, 1.1, 1.8),
    housingWidth: ballDiameter * between(random, 0.4, 0.9),
    boltDiameter: ballDiameter * between(random, 0.3, 0.7),
    boltLength: between(random, 30, 120),
    boltDirection: randomPoint(random, 1),
    ...(form === 'rodEnd' && {
      shankDiameter: between(random, 8, 25),
      shankLength: between(random, 25, 90),
    }),
  };
}

/** Far end of each member from its joint, written out. */
function alongMember(corner: Corner, at: JointPlace): Vec3 {
  const h = corner.suspension.hardpoints;
  const far: Record<JointPlace, Vec3> = {
    lowerJoint: midpoint(h.lowerArmFront, h.lowerArmRear),
    upperJoint: midpoint(h.upperArmFront, h.upperArmRear),
    tieRodInner: h.tieRodOuter,
    tieRodOuter: h.tieRodInner,
    lowerArmFront: h.lowerJoint,
    lowerArmRear: h.lowerJoint,
    upperArmFront: h.upperJoint,
    upperArmRear: h.upperJoint,
  };
  return normalize(sub(far[at], h[at]));
}

/** Volume of a ring around a ball: cylinder less ball, in closed form. */
const housingVolume = ({ housingDiameter: d, housingWidth: t, ballDiameter: e }: Entry<'joint'>): number =>
  Math.PI * ((d / 2) ** 2 * t - ((e / 2) ** 2 * t - t ** 3 / 12));

/** Tilt at which the bolt meets the edge of the housing's opening. */
const bindsAtRad = ({ ballDiameter, housingWidth, boltDiameter, spacers }: Entry<'joint'>): number =>
  Math.acos(Math.max(boltDiameter, spacers?.diameter ?? 0) / ballDiameter) -
  Math.asin(housingWidth / ballDiameter);

describe('a joint', () => {
  test('is a housing on its member and a bolt on the other, closed and outward', async () => {
    const random = mulberry32(SEED);
    for (let i = 0; i < 32; i++) {
      const corner = jitteredCorner(random);
      const at = JOINT_PLACES[i % JOINT_PLACES.length];
      const entry = randomJoint(random, at);
      const member = alongMember(corner, at);
      if (entry.form === 'rodEnd' && Math.abs(dot(member, normalize(entry.boltDirection))) > 0.8) {
        entry.boltDirection = [...cross(member, randomPoint(random, 1))];
      }
      const chordToleranceMm = between(random, 0.02, 0.05);
      const [housing, bolt] = buildJoint(entry, await contextOf(corner, chordToleranceMm));
      const about = `seed ${SEED}, joint ${i}: ${JSON.stringify(entry)}`;
      expectSound(housing, about);
      expectSound(bolt, about);
      const centre = corner.suspension.hardpoints[at];
      for (const solid of [housing, bolt]) {
        expect(solid.attachments).toEqual([{ name: at, at: centre }]);
        expect(solid.chordErrorMm, about).toBeLessThanOrEqual(chordToleranceMm + 1e-3);
      }
      const arm = at.startsWith('lower') ? 'lowerArm' : 'upperArm';
      expect([housing.id, bolt.id]).toEqual(['joint', 'joint.bolt']);
      expect(housing.carrier).toBe(at.startsWith('tieRod') ? 'tieRod' : arm);
      const other =
        at === 'tieRodInner' ? 'rack' : at.endsWith('Front') || at.endsWith('Rear') ? 'chassis' : 'upright';
      expect(bolt.carrier, about).toBe(other);
      // The seat is the ball's sphere: its equator is on it, and its centre is out of the metal.
      const axis = housingAxis(corner, entry);
      const across = normalize(cross(axis, randomPoint(random, 1)));
      const onSeat = addScaled(centre, across, entry.ballDiameter / 2);
      expect(distanceToMeshMm(housing.mesh, onSeat), about).toBeLessThanOrEqual(housing.chordErrorMm + 1e-6);
      if (entry.form === 'rodEnd') continue;
      const relative = housing.volumeMm3 / housingVolume(entry);
      expect(relative, about).toBeGreaterThan(0.97);
      expect(relative, about).toBeLessThan(1.05);
    }
  });

  test('binds at the angle of the published formula: bolt or spacer against the edge of the housing', async () => {
    const random = mulberry32(SEED + 1);
    const limits: number[] = [];
    for (let i = 0; i < 20; i++) {
      const corner = benchCorner();
      const entry: Entry<'joint'> = { ...randomJoint(random, 'lowerJoint'), form: 'cup' };
      entry.housingWidth = entry.ballDiameter * between(random, 0.4, 0.8);
      if (i % 2 === 0)
        entry.spacers = {
          diameter: entry.boltDiameter + (entry.ballDiameter - entry.boltDiameter) * between(random, 0, 0.4),
          length: between(random, 3, 15),
        };
      const limit = bindsAtRad(entry);
      if (limit < 0.06) continue;
      limits.push(limit);
      const [housing, bolt] = buildJoint(entry, await contextOf(corner, 0.03));
      const a = prepareBody(housing.mesh, { chordErrorMm: housing.chordErrorMm });
      const b = prepareBody(bolt.withoutBall!, { chordErrorMm: bolt.chordErrorMm });
      const centre = corner.suspension.hardpoints.lowerJoint;
      const about = `seed ${SEED + 1}, joint ${i}: ${JSON.stringify(entry)}`;
      const axis = normalize(cross(housingAxis(corner, entry), randomPoint(random, 1)));
      // Only whether they meet is computed, not how deep.
      const at = (tilt: number) => measure(a, b, rotationAbout(centre, axis, tilt), { depthToleranceMm: 2 });
      const before = at(limit - 0.02);
      const after = at(limit + 0.02);
      expect(before.kind, about).toBe('separated');
      expect(after.kind, about).toBe('overlapping');
      // At the limit itself the clearance is within the error of the two meshes.
      const there = at(limit);
      if (there.kind === 'unknown' || there.kind === 'beyond') throw new Error(about);
      expect(Math.abs(there.distanceMm), about).toBeLessThanOrEqual(there.errorMm + 1e-6);
    }
    expect(limits.length).toBeGreaterThan(12);
  });

  test('ends the ball at its faces if ballWidth is given', async () => {
    const corner = benchCorner();
    const entry: Entry<'joint'> = {
      ...randomJoint(mulberry32(1), 'lowerArmFront'),
      form: 'cup',
      ballDiameter: 50,
      housingDiameter: 70,
      housingWidth: 20,
      boltDiameter: 10,
      boltLength: 30,
      ballWidth: 30,
    };
    const [, bolt] = buildJoint(entry, await contextOf(corner, 0.01));
    // A sphere between two planes 15 mm from its centre.
    const faced = Math.PI * (25 ** 2 * 30 - (2 * 15 ** 3) / 3);
    expect(bolt.volumeMm3).toBeLessThan(faced);
    expect(bolt.volumeMm3).toBeGreaterThan(faced * 0.995);
  });

  test('has head and nut if there is room for them, and none in the boss', async () => {
    const corner = benchCorner();
    const { jointGap, jointMounts } = entryOf(corner, 'upright');
    const entry: Entry<'joint'> = {
      ...randomJoint(mulberry32(1), 'upperJoint'),
      form: 'cup',
      ballDiameter: 30,
      housingDiameter: 44,
      housingWidth: 18,
      boltDiameter: 12,
      boltLength: 2 * (jointGap + jointMounts.height),
      boltDirection: [0, 0, 1],
    };
    const heads = async (change: Partial<Entry<'joint'>>) => {
      const [, bolt] = buildJoint({ ...entry, ...change }, await contextOf(corner, 0.02));
      const [, , z] = corner.suspension.hardpoints.upperJoint;
      const [x0, y0] = corner.suspension.hardpoints.upperJoint;
      const { positions } = bolt.withoutBall!;
      const wide = (from: number, to: number) => {
        for (let i = 0; i < positions.length; i += 3) {
          const up = positions[i + 2] - z;
          if (up < from || up > to) continue;
          if (Math.hypot(positions[i] - x0, positions[i + 1] - y0) > 1.2 * 6) return true;
        }
        return false;
      };
      const end = (change.boltLength ?? entry.boltLength) / 2;
      return { below: wide(-end - 0.1, -end + 0.1), above: wide(end - 0.1, end + 0.1) };
    };
    // The upper joint's boss is below it, towards the lower joint.
    expect(await heads({})).toEqual({ below: false, above: true });
    expect(await heads({ boltLength: entry.boltLength + 40 })).toEqual({ below: true, above: true });
    expect(await heads({ boltLength: 40 })).toEqual({ below: false, above: false });
    expect(await heads({ boltLength: 40, boltHead: { diameter: 22, height: 9 } })).toEqual({
      below: false,
      above: true,
    });
  });

  test('rejects dimensions that contradict, with a remedy', async () => {
    const corner = benchCorner();
    const context = await contextOf(corner);
    const entry = { ...randomJoint(mulberry32(2), 'tieRodOuter'), form: 'rodEnd' as const };
    Object.assign(entry, { shankDiameter: 16, shankLength: 45, boltDirection: [0, 0, 1] });
    expect(() => buildJoint(entry, context)).not.toThrow();
    expect(() => buildJoint({ ...entry, shankLength: undefined }, context)).toThrow(
      /needs shankDiameter and shankLength/,
    );
    expect(() => buildJoint({ ...entry, boltDirection: [0, 1, 0] }, context)).toThrow(
      /boltDirection is 0.0° from the line of the rod end's shank/,
    );
    for (const name of ['boltDiameter', 'housingWidth', 'ballWidth'])
      expect(() => buildJoint({ ...entry, [name]: entry.ballDiameter }, context)).toThrow(
        new RegExp(`${name} .* does not fit a ball of ballDiameter`),
      );
    expect(() => buildJoint({ ...entry, housingDiameter: entry.ballDiameter }, context)).toThrow(
      /housingDiameter .* must be more than ballDiameter/,
    );
  });
});
