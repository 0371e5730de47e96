import { describe, expect, test } from 'vitest';
import type { Corner, Entry } from '../../src/design/schema.ts';
import { addScaled, cross, dot, lerp, normalize, scale, sub, type Vec3 } from '../../src/math/vec.ts';
import { buildControlArm } from '../../src/parts/controlArm/build.ts';
import { loadModeller } from '../../src/solids/modeller.ts';
import { distanceToMeshMm } from '../oracles/meshChecks.ts';
import { between, mulberry32 } from '../oracles/random.ts';
import { type Piece, signedDistanceMm } from '../oracles/roundPieces.ts';
import { benchCorner, contextOf, entryOf, jitteredCorner } from '../solids/benchCorner.ts';
import { expectHonest, expectSound } from '../solids/solidChecks.ts';

const SEED = 4106;

const placesOf = (arm: string) =>
  arm === 'lower'
    ? (['lowerArmFront', 'lowerArmRear', 'lowerJoint'] as const)
    : (['upperArmFront', 'upperArmRear', 'upperJoint'] as const);

function randomArm(random: () => number, arm: 'lower' | 'upper'): Entry<'controlArm'> {
  const tubeDiameter = between(random, 15, 45);
  return {
    kind: 'controlArm',
    id: 'arm',
    allowance: 0,
    arm,
    tubeDiameter,
    pivotDiameter: tubeDiameter * between(random, 1.05, 1.6),
    pivotLength: between(random, 30, 70),
    cupDiameter: tubeDiameter * between(random, 1.2, 2),
    cupHeight: between(random, 12, 60),
    ...(random() < 0.5 && { brace: { at: between(random, 0.1, 0.7), diameter: between(random, 8, 25) } }),
  };
}

/** The arm's round pieces; tubes end four fifths of the way from the cup's centre to its surface. */
function truePieces(corner: Corner, entry: Entry<'controlArm'>, bolt: Vec3): Piece[] {
  const [front, rear, joint] = placesOf(entry.arm).map((place) => corner.suspension.hardpoints[place]);
  const line = normalize(sub(rear, front));
  const centred = (centre: Vec3, axis: Vec3, width: number, diameter: number): Piece => ({
    from: addScaled(centre, axis, -width / 2),
    to: addScaled(centre, axis, width / 2),
    radius: diameter / 2,
  });
  const cup = centred(joint, bolt, entry.cupHeight, entry.cupDiameter);
  const pieces: Piece[] = [cup];
  for (const pivot of [front, rear]) {
    const out = normalize(sub(pivot, joint));
    // The cup's surface along the tube, by halving the distance at which the cup is left.
    let [within, beyond] = [0, 500];
    for (let k = 0; k < 60; k++) {
      const middle = (within + beyond) / 2;
      if (signedDistanceMm(cup, addScaled(joint, out, middle)) < 0) within = middle;
      else beyond = middle;
    }
    pieces.push(centred(pivot, line, entry.pivotLength, entry.pivotDiameter));
    pieces.push({ from: pivot, to: addScaled(joint, out, 0.8 * within), radius: entry.tubeDiameter / 2 });
  }
  if (entry.brace !== undefined) {
    const { at, diameter } = entry.brace;
    pieces.push({ from: lerp(front, joint, at), to: lerp(rear, joint, at), radius: diameter / 2 });
  }
  return pieces;
}

describe('a control arm', () => {
  test('is closed, in one piece, within its error, and centred on its hardpoints, for random arms', async () => {
    const random = mulberry32(SEED);
    const { Manifold } = await loadModeller();
    for (let i = 0; i < 20; i++) {
      const corner = jitteredCorner(random);
      const entry = randomArm(random, i % 2 === 0 ? 'lower' : 'upper');
      const [front, rear, outer] = placesOf(entry.arm);
      const { hardpoints } = corner.suspension;
      corner.parts = corner.parts.filter(({ kind }) => kind !== 'joint');
      const chordToleranceMm = between(random, 0.05, 0.3);
      const [solid] = buildControlArm(entry, await contextOf(corner, chordToleranceMm));
      const about = `seed ${SEED}, arm ${i}: ${JSON.stringify(entry)}`;
      expectSound(solid, about);
      expectHonest(solid, truePieces(corner, entry, [0, 0, 1]), { chordToleranceMm, random, about });
      const again = Manifold.ofMesh({
        numProp: 3,
        vertProperties: Float32Array.from(solid.mesh.positions),
        triVerts: solid.mesh.triangles,
      } as ConstructorParameters<typeof Manifold>[0]);
      expect(again.decompose().length, about).toBe(1);

      expect(solid.carrier).toBe(`${entry.arm}Arm`);
      const at = Object.fromEntries(solid.attachments.map((one) => [one.name, one.at]));
      for (const place of [front, rear, outer]) expect(at[place], about).toEqual(hardpoints[place]);
      const { damper } = corner.suspension;
      if (entry.arm === 'lower') expect(at.damperArm).toEqual(damper?.armMount);
      else expect(at.damperArm).toBeUndefined();
    }
  });

  test("has its cup along the joint's housing, bored as wide as the ball", async () => {
    const corner = benchCorner();
    const joint = corner.parts.find((part) => part.kind === 'joint' && part.at === 'lowerJoint');
    if (joint?.kind !== 'joint') throw new Error('the bench corner has a lower joint');
    joint.housingDirection = [0.2, -0.1, 1];
    const entry = entryOf(corner, 'controlArm');
    const [solid] = buildControlArm(entry, await contextOf(corner));
    expectSound(solid, 'bored');
    const { lowerJoint } = corner.suspension.hardpoints;
    const axis = normalize(joint.housingDirection);
    const across = normalize(cross(axis, [1, 0, 0]));
    // At every angle and every height in the cup, the wall of the bore is half a ball's diameter from the axis.
    for (const height of [-0.4, 0, 0.4]) {
      const at = addScaled(lowerJoint, axis, height * entry.cupHeight);
      const toWall = distanceToMeshMm(solid.mesh, at);
      expect(Math.abs(toWall - joint.ballDiameter / 2), `${height}`).toBeLessThanOrEqual(
        solid.chordErrorMm + 1e-6,
      );
      const inWall = addScaled(at, across, (joint.ballDiameter + entry.cupDiameter) / 4);
      expect(distanceToMeshMm(solid.mesh, inWall)).toBeLessThan(
        (entry.cupDiameter - joint.ballDiameter) / 4 + 0.1,
      );
    }
  });

  test('replaces the barrel by a joint at a pivot, and starts the tube at its shank', async () => {
    const corner = benchCorner();
    const entry = entryOf(corner, 'controlArm');
    const joint: Entry<'joint'> = {
      ...(corner.parts.find(({ kind }) => kind === 'joint') as Entry<'joint'>),
      id: 'pivotEnd',
      at: 'lowerArmFront',
      form: 'rodEnd',
      shankDiameter: 16,
      shankLength: 60,
    };
    const { lowerArmFront, lowerJoint } = corner.suspension.hardpoints;
    const [bare] = buildControlArm(entry, await contextOf(corner));
    expect(distanceToMeshMm(bare.mesh, lowerArmFront)).toBeLessThan(entry.pivotDiameter / 2 + 1e-6);
    corner.parts.push(joint);
    const [solid] = buildControlArm(entry, await contextOf(corner));
    expectSound(solid, 'without a barrel');
    // 10 mm of a shank of 60 mm are screwed into the tube.
    expect(distanceToMeshMm(solid.mesh, lowerArmFront)).toBeCloseTo(50, 3);
    const inTube = addScaled(lowerArmFront, normalize(sub(lowerJoint, lowerArmFront)), 50);
    expect(distanceToMeshMm(solid.mesh, inTube)).toBeLessThan(1e-3);
  });

  test('has a gusset that fills exactly the corner between the tubes', async () => {
    const corner = benchCorner();
    const entry = { ...entryOf(corner, 'controlArm'), brace: undefined };
    const context = await contextOf(corner);
    const [bare] = buildControlArm(entry, context);
    const [filled] = buildControlArm({ ...entry, gusset: { thickness: 6, length: 180 } }, context);
    expectSound(filled, 'gusset');
    const { lowerJoint, lowerArmFront, lowerArmRear } = corner.suspension.hardpoints;
    const [u, v] = [normalize(sub(lowerArmFront, lowerJoint)), normalize(sub(lowerArmRear, lowerJoint))];
    // The middle of the gusset's free edge is on its surface, and 3 mm above and below it too.
    const edge = addScaled(addScaled(lowerJoint, u, 90), v, 90);
    const up = normalize([u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]]);
    for (const z of [-3, 0, 3]) {
      const point = addScaled(edge, up, z);
      expect(distanceToMeshMm(filled.mesh, point)).toBeLessThan(1e-4);
      expect(distanceToMeshMm(bare.mesh, point)).toBeGreaterThan(10);
    }
    const triangle = 0.5 * 180 ** 2 * Math.sqrt(1 - dot(u, v) ** 2);
    expect(filled.volumeMm3 - bare.volumeMm3).toBeGreaterThan(0);
    expect(filled.volumeMm3 - bare.volumeMm3).toBeLessThan(6 * triangle);
  });

  test('rejects points that make no arm, by name', async () => {
    const corner = benchCorner();
    const entry = entryOf(corner, 'controlArm');
    const { hardpoints } = corner.suspension;
    const context = await contextOf(corner);
    const withRear = (lowerArmRear: Vec3) => ({
      ...context,
      corner: {
        ...corner,
        suspension: {
          ...corner.suspension,
          hardpoints: { ...hardpoints, lowerArmRear: [...lowerArmRear] as [number, number, number] },
        },
      },
    });
    expect(() => buildControlArm(entry, withRear(hardpoints.lowerArmFront))).toThrow(
      /lowerArmFront and lowerArmRear are the same point/,
    );
    expect(() => buildControlArm(entry, withRear(addScaled(hardpoints.lowerJoint, [0, 1, 0], -40)))).toThrow(
      /lowerArmRear is 40.0 mm from lowerJoint/,
    );
    const beyond = addScaled(hardpoints.lowerJoint, sub(hardpoints.lowerArmFront, hardpoints.lowerJoint), -1);
    expect(() => buildControlArm(entry, withRear(scale(beyond, 1)))).toThrow(/lie in one line/);
    expect(() => buildControlArm({ ...entry, gusset: { thickness: 5, length: 900 } }, context)).toThrow(
      /gusset.length 900 mm is longer than the tube/,
    );
  });
});
