import { describe, expect, test } from 'vitest';
import type { Corner, Entry } from '../../src/design/schema.ts';
import { applyPoint, invert } from '../../src/math/rigid.ts';
import { addScaled, dot, normalize, scale, type Vec3 } from '../../src/math/vec.ts';
import { buildUpright } from '../../src/parts/upright/build.ts';
import type { BuiltSolid } from '../../src/solids/build.ts';
import { boltDirection } from '../../src/solids/jointPlace.ts';
import { loadModeller } from '../../src/solids/modeller.ts';
import { bossOfJoint } from '../../src/solids/uprightPlan.ts';
import { axialStack, vehicleFromWheelAxis } from '../../src/solids/wheelFrame.ts';
import { distanceToMeshMm } from '../oracles/meshChecks.ts';
import { between, mulberry32 } from '../oracles/random.ts';
import { benchCorner, contextOf, entryOf, jitteredCorner } from '../solids/benchCorner.ts';
import { expectSound } from '../solids/solidChecks.ts';

const SEED = 4107;

function randomUpright(random: () => number, entry: Entry<'upright'>): Entry<'upright'> {
  const plateThickness = between(random, 5, 15);
  return {
    ...entry,
    plateThickness,
    hubMount: { diameter: between(random, 120, 160), bore: between(random, 50, 90) },
    legWidth: between(random, 30, 70),
    kickOutRadius: between(random, 40, 90),
    boxDepth: random() < 0.5 ? 0 : plateThickness + between(random, 5, 40),
    boxWall: 3,
    steeringArm: { width: between(random, 20, 45), thickness: between(random, 8, 20) },
    jointMounts: { diameter: between(random, 25, 45), height: between(random, 10, 30) },
    jointGap: between(random, 0, 25),
  };
}

/** Corners of a mesh in the wheel-axis frame: y outboard along the axis. */
function inWheelFrame(solid: BuiltSolid, corner: Corner): Vec3[] {
  const wheelFromVehicle = invert(vehicleFromWheelAxis(corner.suspension));
  const points: Vec3[] = [];
  for (let i = 0; i < solid.mesh.positions.length; i += 3) {
    const [x, y, z] = solid.mesh.positions.subarray(i, i + 3);
    points.push(applyPoint(wheelFromVehicle, [x, y, z]));
  }
  return points;
}

describe('an upright', () => {
  test('is closed and in one piece, with bosses and bore in place, for random uprights', async () => {
    const random = mulberry32(SEED);
    const { Manifold } = await loadModeller();
    for (let i = 0; i < 16; i++) {
      const corner = jitteredCorner(random);
      const entry = randomUpright(random, entryOf(corner, 'upright'));
      const chordToleranceMm = between(random, 0.05, 0.3);
      const [solid] = buildUpright(entry, await contextOf(corner, chordToleranceMm));
      const about = `seed ${SEED}, upright ${i}: ${JSON.stringify(entry)}`;
      expectSound(solid, about);
      expect(solid.chordErrorMm, about).toBeLessThanOrEqual(chordToleranceMm + 1e-3);
      const again = Manifold.ofMesh({
        numProp: 3,
        vertProperties: Float32Array.from(solid.mesh.positions),
        triVerts: solid.mesh.triangles,
      } as ConstructorParameters<typeof Manifold>[0]);
      expect(again.decompose().length, about).toBe(1);

      // The face of each boss toward its joint: the middle, and the true circle's edge.
      const { hardpoints } = corner.suspension;
      for (const [place, toward] of [
        ['lowerJoint', hardpoints.upperJoint],
        ['upperJoint', hardpoints.lowerJoint],
      ] as const) {
        const up: Vec3 = toward[2] > hardpoints[place][2] ? [0, 0, 1] : [0, 0, -1];
        const face = addScaled(hardpoints[place], up, entry.jointGap);
        expect(distanceToMeshMm(solid.mesh, face), about).toBeLessThanOrEqual(1e-3);
        const turn = 2 * Math.PI * random();
        const rim = addScaled(face, [Math.cos(turn), Math.sin(turn), 0], entry.jointMounts.diameter / 2);
        expect(distanceToMeshMm(solid.mesh, rim), about).toBeLessThanOrEqual(solid.chordErrorMm);
      }

      // The bore is open through plate and boxing: no part of the mesh is nearer to the axis there.
      const stack = axialStack(corner);
      const faceY = stack.hubFaceY + stack.uprightFaceDepth;
      const depth = Math.max(entry.plateThickness, entry.boxDepth);
      const bore = entry.hubMount.bore / 2;
      const vehicleFromWheel = vehicleFromWheelAxis(corner.suspension);
      for (let k = 0; k < 12; k++) {
        const turn = (2 * Math.PI * k) / 12;
        const y = faceY - entry.plateThickness * random();
        const wall = applyPoint(vehicleFromWheel, [bore * Math.sin(turn), y, bore * Math.cos(turn)]);
        expect(distanceToMeshMm(solid.mesh, wall), about).toBeLessThanOrEqual(solid.chordErrorMm);
      }
      const points = inWheelFrame(solid, corner);
      for (const [x, y, z] of points) {
        if (y < faceY + 0.5 && y > faceY - depth - 0.5) {
          expect(Math.hypot(x, z), about).toBeGreaterThanOrEqual(bore - solid.chordErrorMm);
        }
      }
      // No metal is above the pad's face at the bearing housing.
      const padRadius = entry.hubMount.diameter / 2;
      for (const [x, y, z] of points) {
        if (Math.hypot(x, z) < padRadius - 1 - chordToleranceMm) {
          expect(y, about).toBeLessThanOrEqual(faceY + 1e-3);
        }
      }
    }
  });

  test('is within its chord error of a finer build', async () => {
    const random = mulberry32(SEED + 1);
    for (let i = 0; i < 3; i++) {
      const corner = jitteredCorner(random);
      const entry = randomUpright(random, entryOf(corner, 'upright'));
      const [coarse] = buildUpright(entry, await contextOf(corner, 0.4));
      const [fine] = buildUpright(entry, await contextOf(corner, 0.01));
      const about = `seed ${SEED + 1}, upright ${i}`;
      const count = fine.mesh.positions.length / 3;
      let worst = 0;
      for (let k = 0; k < 250; k++) {
        const v = 3 * Math.floor(count * random());
        worst = Math.max(worst, distanceToMeshMm(coarse.mesh, [...fine.mesh.positions.subarray(v, v + 3)]));
      }
      expect(worst, about).toBeLessThanOrEqual(coarse.chordErrorMm + fine.chordErrorMm);
      expect(worst, about).toBeGreaterThan(0.02);
      expect(fine.volumeMm3, about).toBeGreaterThan(coarse.volumeMm3 * 0.99);
    }
  });

  test('has legs in the plane of the pad out to the kick-out radius', async () => {
    const corner = benchCorner();
    const entry = { ...entryOf(corner, 'upright'), boxDepth: 30 };
    const [solid] = buildUpright(entry, await contextOf(corner));
    const vehicleFromWheel = vehicleFromWheelAxis(corner.suspension);
    const wheelFromVehicle = invert(vehicleFromWheel);
    const stack = axialStack(corner);
    const faceY = stack.hubFaceY + stack.uprightFaceDepth;
    for (const place of ['lowerJoint', 'upperJoint'] as const) {
      const joint = applyPoint(wheelFromVehicle, corner.suspension.hardpoints[place]);
      const out = normalize([joint[0], 0, joint[2]]);
      // Beyond the pad (radius 72.5), up to 78: outboard face at the pad's face, inboard face at the box's depth.
      for (const y of [faceY, faceY - 30]) {
        const point = applyPoint(vehicleFromWheel, [75 * out[0], y, 75 * out[2]]);
        expect(distanceToMeshMm(solid.mesh, point)).toBeLessThan(1e-3);
      }
    }
  });

  test('ends the steering arm in its boss, at the given gap from the tie rod joint', async () => {
    const corner = benchCorner();
    const entry = entryOf(corner, 'upright');
    const [solid] = buildUpright(entry, await contextOf(corner));
    const { tieRodOuter, wheelCentre } = corner.suspension.hardpoints;
    // The joint is below the wheel's centre, so that its boss is above it.
    expect(wheelCentre[2]).toBeGreaterThan(tieRodOuter[2]);
    const face = addScaled(tieRodOuter, [0, 0, 1], entry.jointGap);
    expect(distanceToMeshMm(solid.mesh, face)).toBeLessThan(1e-3);
    const below = addScaled(tieRodOuter, [0, 0, 1], -entry.jointGap);
    expect(distanceToMeshMm(solid.mesh, below)).toBeGreaterThan(entry.jointGap);
  });

  test('lists its joints and its damper mount as attachments', async () => {
    const corner = benchCorner();
    corner.suspension.damper!.on = 'upright';
    const [solid] = buildUpright(entryOf(corner, 'upright'), await contextOf(corner));
    const at = Object.fromEntries(solid.attachments.map((one) => [one.name, one.at]));
    const { hardpoints, damper } = corner.suspension;
    const { lowerJoint, upperJoint, tieRodOuter } = hardpoints;
    expect(at).toEqual({ lowerJoint, upperJoint, tieRodOuter, damperArm: damper?.armMount });
  });

  test("keeps both faces of the tie rod's boss free of the steering arm", async () => {
    const corner = benchCorner();
    const entry = entryOf(corner, 'upright');
    const [solid] = buildUpright(entry, await contextOf(corner));
    const { tieRodOuter } = corner.suspension.hardpoints;
    const direction = boltDirection(corner, 'tieRodOuter');
    const axis =
      dot(direction, bossOfJoint(corner, entry, 'tieRodOuter')) < 0 ? scale(direction, -1) : direction;
    // Within the boss's circle no metal is above either face.
    for (const [face, way] of [
      [entry.jointGap, -1],
      [entry.jointGap + entry.jointMounts.height, 1],
    ]) {
      const beyond = addScaled(tieRodOuter, axis, face + way * 2);
      expect(distanceToMeshMm(solid.mesh, beyond), `${face}`).toBeGreaterThan(1.99);
    }
  });

  test('without a kick-out radius, bends its legs at the edge of the pad', async () => {
    const corner = benchCorner();
    const context = await contextOf(corner);
    const { kickOutRadius: _, ...entry } = entryOf(corner, 'upright');
    const [assumed] = buildUpright(entry, context);
    const [given] = buildUpright({ ...entry, kickOutRadius: entry.hubMount.diameter / 2 }, context);
    expect(assumed.mesh).toEqual(given.mesh);
    const wide = { ...entry, hubMount: { ...entry.hubMount, diameter: 600 } };
    expect(() => buildUpright(wide, context)).toThrow(
      /kickOutRadius 300 mm \(assumed: the edge of the pad\)/,
    );
  });

  test('rejects dimensions that contradict, with a remedy', async () => {
    const corner = benchCorner();
    const entry = entryOf(corner, 'upright');
    const context = await contextOf(corner);
    const buildingWith = (change: Partial<Entry<'upright'>>) => () =>
      buildUpright({ ...entry, ...change }, context);
    expect(buildingWith({})).not.toThrow();
    expect(buildingWith({ hubMount: { diameter: 80, bore: 80 } })).toThrow(
      /hubMount.bore 80 mm leaves no pad/,
    );
    expect(buildingWith({ boxDepth: 6 })).toThrow(/boxDepth 6 mm .* at least plateThickness 12 mm/);
    expect(buildingWith({ boxDepth: 30, boxWall: 15 })).toThrow(/boxWall 15 mm on both sides fills/);
    expect(buildingWith({ kickOutRadius: 300 })).toThrow(/kickOutRadius 300 mm reaches past lowerJoint/);
  });
});
