import { describe, expect, test } from 'vitest';
import { type Corner, type Entry, JOINT_PLACES, type JointPlace } from '../../src/design/schema.ts';
import { addScaled, cross, distance, dot, midpoint, normalize, sub, type Vec3 } from '../../src/math/vec.ts';
import { buildJoint } from '../../src/solids/joint.ts';
import { between, mulberry32 } from '../oracles/random.ts';
import type { Piece } from '../oracles/roundPieces.ts';
import { benchCorner, contextOf, jitteredCorner, randomPoint } from './benchCorner.ts';
import { expectHonest, expectSound } from './solidChecks.ts';

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
    housingWidth: ballDiameter * between(random, 0.4, 1.2),
    boltDiameter: ballDiameter * between(random, 0.3, 0.7),
    boltLength: between(random, 30, 120),
    boltDirection: randomPoint(random, 1),
    ...(form === 'rodEnd' && {
      shankDiameter: between(random, 8, 25),
      shankLength: between(random, 25, 90),
    }),
  };
}

/** Where each member leads from its joint, written out. */
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

function truePieces(corner: Corner, entry: Entry<'joint'>): Piece[] {
  const centre = corner.suspension.hardpoints[entry.at];
  const bolt = normalize(entry.boltDirection);
  const member = alongMember(corner, entry.at);
  const centred = (axis: Vec3, width: number, diameter: number): Piece => ({
    from: addScaled(centre, axis, -width / 2),
    to: addScaled(centre, axis, width / 2),
    radius: diameter / 2,
  });
  const head = entry.form === 'rodEnd' ? normalize(cross(cross(member, bolt), member)) : bolt;
  const pieces: Piece[] = [
    centred(bolt, entry.boltLength, entry.boltDiameter),
    centred(head, entry.housingWidth, entry.housingDiameter),
    { centre, radius: entry.ballDiameter / 2 },
  ];
  if (entry.form === 'rodEnd') {
    const to = addScaled(centre, member, entry.shankLength!);
    pieces.push({ from: centre, to, radius: entry.shankDiameter! / 2 });
  }
  return pieces;
}

describe('a joint', () => {
  test('random joints at every place: closed, honest, centred on their hardpoint, carried by their member', async () => {
    const random = mulberry32(SEED);
    for (let i = 0; i < 32; i++) {
      const corner = jitteredCorner(random);
      const at = JOINT_PLACES[i % JOINT_PLACES.length];
      const entry = randomJoint(random, at);
      const member = alongMember(corner, at);
      if (entry.form === 'rodEnd' && Math.abs(dot(member, normalize(entry.boltDirection))) > 0.8) {
        entry.boltDirection = [...cross(member, randomPoint(random, 1))];
      }
      const chordToleranceMm = between(random, 0.02, 0.3);
      const [solid] = buildJoint(entry, await contextOf(corner, chordToleranceMm));
      const about = `seed ${SEED}, joint ${i}: ${JSON.stringify(entry)}`;
      expectSound(solid, about);
      const pieces = truePieces(corner, entry);
      expectHonest(solid, pieces, { chordToleranceMm, random, about });

      const centre = corner.suspension.hardpoints[at];
      expect(solid.attachments.length).toBe(1);
      const [{ name, zone }] = solid.attachments;
      expect(name).toBe(at);
      expect(zone).toMatchObject({ shape: 'sphere', centre });
      // All but a shank lies inside the zone, with no more than 1 mm to spare at the outermost edge.
      const edges = pieces
        .slice(0, 3)
        .map((piece) =>
          'centre' in piece ? piece.radius : Math.hypot(piece.radius, distance(piece.from, piece.to) / 2),
        );
      expect(zone.radiusMm - Math.max(...edges), about).toBeCloseTo(1, 9);
      const arm = at.startsWith('lower') ? 'lowerArm' : 'upperArm';
      expect(solid.carrier).toBe(at.startsWith('tieRod') ? 'tieRod' : arm);
    }
  });

  test('a ball alone is nearly 4/3 pi r^3', async () => {
    const corner = benchCorner();
    const entry = { ...randomJoint(mulberry32(1), 'lowerJoint'), form: 'ball' as const };
    Object.assign(entry, {
      ballDiameter: 50,
      housingDiameter: 2,
      housingWidth: 2,
      boltDiameter: 2,
      boltLength: 4,
    });
    const [solid] = buildJoint(entry, await contextOf(corner, 0.01));
    const ball = (4 / 3) * Math.PI * 25 ** 3;
    // Between the sphere and the one that is smaller by the chord error.
    expect(solid.volumeMm3).toBeLessThan(ball);
    expect(solid.volumeMm3).toBeGreaterThan((4 / 3) * Math.PI * (25 - solid.chordErrorMm) ** 3);
    expect(solid.chordErrorMm).toBeLessThan(0.011);
  });

  test('dimensions that contradict are refused with a remedy', async () => {
    const corner = benchCorner();
    const context = await contextOf(corner);
    const entry = { ...randomJoint(mulberry32(2), 'tieRodOuter'), form: 'rodEnd' as const };
    Object.assign(entry, { shankDiameter: 16, shankLength: 45, boltDirection: [0, 0, 1] });
    expect(() => buildJoint(entry, context)).not.toThrow();
    expect(() => buildJoint({ ...entry, shankLength: undefined }, context)).toThrow(
      /needs shankDiameter and shankLength/,
    );
    expect(() => buildJoint({ ...entry, boltDirection: [0, 1, 0] }, context)).toThrow(
      /boltDirection is 0.0° from the line of the member/,
    );
    expect(() => buildJoint({ ...entry, boltDiameter: entry.ballDiameter }, context)).toThrow(
      /does not fit through a ball/,
    );
  });
});
