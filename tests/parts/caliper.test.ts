import { describe, expect, test } from 'vitest';
import type { Corner, Entry } from '../../src/design/schema.ts';
import { applyPoint, compose, invert, rotationAbout } from '../../src/math/rigid.ts';
import type { Vec3 } from '../../src/math/vec.ts';
import { buildCaliper } from '../../src/parts/caliper/build.ts';
import { buildRotor } from '../../src/parts/rotor/build.ts';
import type { BuiltSolid } from '../../src/solids/build.ts';
import { loadModeller } from '../../src/solids/modeller.ts';
import type { Mesh } from '../../src/solids/solid.ts';
import { axialStack, vehicleFromWheelAxis } from '../../src/solids/wheelFrame.ts';
import { pointsIn } from '../oracles/halfPlane.ts';
import { distanceToMeshMm } from '../oracles/meshChecks.ts';
import { between, mulberry32 } from '../oracles/random.ts';
import { benchCorner, contextOf, entryOf, jitteredCorner } from '../solids/benchCorner.ts';
import { expectSound } from '../solids/solidChecks.ts';

const SEED = 7406;

/** A caliper on a rotor with its ears beside the body, clear of the rotor. */
function randomCaliper(random: () => number): { corner: Corner; caliper: Entry<'caliper'> } {
  const corner = jitteredCorner(random);
  const rotorRadius = between(random, 120, 185);
  const rotor = entryOf(corner, 'rotor');
  rotor.diameter = 2 * rotorRadius;
  rotor.thickness = between(random, 8, 34);
  rotor.innerDiameter = undefined;
  rotor.height = rotor.thickness + between(random, 10, 40);
  const entry = entryOf(corner, 'caliper');
  const earThickness = between(random, 8, 20);
  const faceGap = between(random, 1, 5);
  const earDiameter = between(random, 20, 34);
  const innerRadius = rotorRadius - between(random, 30, 45);
  rotor.hatDiameter = 2 * (innerRadius - between(random, 8, 20));
  rotor.centreBore = 60;
  const caliper: Entry<'caliper'> = {
    ...entry,
    clockingDeg: between(random, -180, 180),
    mount: {
      boltRadius: between(random, innerRadius - 20, rotorRadius),
      boltSpacing: between(random, 80, 150),
      boltDiameter: between(random, 10, 14),
      boltLength: between(random, 30, 60),
      earFace: earThickness + faceGap + between(random, 1, 30),
      earThickness,
      earDiameter,
    },
    body: {
      outboardDepth: between(random, 20, 60),
      inboardDepth: between(random, 40, 80),
      innerRadius,
      outerRadius: rotorRadius + between(random, 15, 35),
      length: between(random, 110, 260),
      rotorGap: between(random, 1, 6),
      faceGap,
    },
    bracket:
      random() < 0.5
        ? undefined
        : {
            thickness: between(random, 6, 15),
            inset: between(random, 0, 5),
            innerRadius: innerRadius - between(random, 20, 35),
            width: between(random, 60, 180),
          },
    bleedScrew: undefined,
  };
  corner.parts[corner.parts.findIndex(({ id }) => id === caliper.id)] = caliper;
  return { corner, caliper };
}

/** From the caliper's frame: z outward through its middle, x toward lesser clocking, y outboard along the axis. */
const vehicleFromCaliper = (corner: Corner, clockingDeg: number) =>
  compose(
    vehicleFromWheelAxis(corner.suspension),
    rotationAbout([0, 0, 0], [0, -1, 0], (clockingDeg * Math.PI) / 180),
  );

function frictionFaces(corner: Corner) {
  const { hubFaceY, rotorFaces } = axialStack(corner);
  const { inboard, outboard } = rotorFaces(entryOf(corner, 'rotor'));
  return { inboard: hubFaceY + inboard, outboard: hubFaceY + outboard };
}

async function manifoldOf(mesh: Mesh) {
  const { Manifold } = await loadModeller();
  return Manifold.ofMesh({
    numProp: 3,
    vertProperties: Float32Array.from(mesh.positions),
    triVerts: mesh.triangles,
  } as ConstructorParameters<typeof Manifold>[0]);
}

const offSurface = (solid: BuiltSolid, corner: Corner, clockingDeg: number, [x, y, z]: Vec3): number =>
  distanceToMeshMm(solid.mesh, applyPoint(vehicleFromCaliper(corner, clockingDeg), [x, y, z]));

describe('a caliper', () => {
  test('is closed and in one piece, with faces and arcs at the given dimensions, for random calipers', async () => {
    const random = mulberry32(SEED);
    for (let i = 0; i < 24; i++) {
      const { corner, caliper } = randomCaliper(random);
      const { body, mount, clockingDeg } = caliper;
      const chordToleranceMm = between(random, 0.03, 0.2);
      const [solid] = buildCaliper(caliper, await contextOf(corner, chordToleranceMm));
      const about = `seed ${SEED}, caliper ${i}: ${JSON.stringify(caliper)}`;
      expectSound(solid, about);
      expect(solid.chordErrorMm, about).toBeLessThanOrEqual(chordToleranceMm + 1e-3);
      expect(solid.carrier, about).toBe('upright');
      expect(
        solid.seats?.map(({ solidId }) => solidId),
        about,
      ).toEqual(['upright']);
      expect((await manifoldOf(solid.mesh)).decompose().length, about).toBe(1);

      const faces = frictionFaces(corner);
      const rotorRadius = entryOf(corner, 'rotor').diameter / 2;
      const [from, to] = [faces.inboard - body.inboardDepth, faces.outboard + body.outboardDepth];
      const points = pointsIn(solid.mesh, invert(vehicleFromCaliper(corner, clockingDeg)));
      const earReach = Math.hypot(
        Math.sqrt(mount.boltRadius ** 2 - (mount.boltSpacing / 2) ** 2) + mount.earDiameter / 2,
        mount.boltSpacing / 2 + mount.earDiameter / 2,
      );
      for (const [x, y, z] of points) {
        expect(Math.hypot(x, z), about).toBeLessThanOrEqual(Math.max(body.outerRadius, earReach) + 1e-3);
        expect(y, about).toBeLessThanOrEqual(to + 1e-3);
        if (Math.hypot(x, z) > earReach)
          expect(Math.abs(x), about).toBeLessThanOrEqual(body.length / 2 + 1e-3);
      }

      // Outside arc and outboard face have no other piece; there is no material under the bridge or beside the rotor.
      // The inner arc ends where the radius through the outer corner meets it.
      const half = (0.99 * body.innerRadius * body.length) / 2 / body.outerRadius;
      for (let k = 0; k < 8; k++) {
        const x = between(random, -half, half);
        const onArc = (radius: number, y: number): Vec3 => [x, y, Math.sqrt(radius ** 2 - x ** 2)];
        const edge = rotorRadius + body.rotorGap;
        const places: Vec3[] = [
          onArc(body.outerRadius, between(random, faces.inboard, to)),
          onArc(edge, between(random, faces.inboard - body.faceGap, faces.outboard + body.faceGap)),
          onArc(between(random, body.innerRadius + 1, edge), faces.outboard + body.faceGap),
          onArc(between(random, body.innerRadius + 1, body.outerRadius), to),
          onArc(body.innerRadius, between(random, faces.outboard + body.faceGap, to)),
        ];
        for (const place of places)
          expect(offSurface(solid, corner, clockingDeg, place), `${about} at ${place}`).toBeLessThanOrEqual(
            solid.chordErrorMm,
          );
      }
      expect(Math.min(...points.map(([, y]) => y)), about).toBeLessThanOrEqual(from + 1e-3);
    }
  });

  test('leaves the rotor the smaller of the two given gaps, as the modeller measures it', async () => {
    const random = mulberry32(SEED + 1);
    for (let i = 0; i < 12; i++) {
      const { corner, caliper } = randomCaliper(random);
      const context = await contextOf(corner, 0.05);
      const [solid] = buildCaliper(caliper, context);
      const [rotor] = buildRotor(entryOf(corner, 'rotor'), context);
      const gap = (await manifoldOf(solid.mesh)).minGap(await manifoldOf(rotor.mesh), 20);
      const expected = Math.min(caliper.body.rotorGap, caliper.body.faceGap);
      const about = `gap ${gap}, not ${expected}; seed ${SEED + 1}, caliper ${i}: ${JSON.stringify(caliper)}`;
      expect(Math.abs(gap - expected), about).toBeLessThanOrEqual(
        solid.chordErrorMm + rotor.chordErrorMm + 1e-3,
      );
    }
  });

  test('has the volume of its arcs and planes, for a body alone', async () => {
    const corner = benchCorner();
    const caliper = entryOf(corner, 'caliper');
    // Ears inside the inboard half and bolts as long as the ears: no piece sticks out of the body.
    caliper.mount = {
      ...caliper.mount,
      boltRadius: 145,
      boltSpacing: 60,
      earDiameter: 20,
      earThickness: 10,
      boltLength: 9,
      earFace: 30,
    };
    caliper.bracket = undefined;
    caliper.bleedScrew = undefined;
    const { innerRadius, outerRadius, length, inboardDepth, outboardDepth, faceGap, rotorGap } = caliper.body;
    const edge = 155 + rotorGap;
    const foot = innerRadius * Math.cos(Math.asin(length / 2 / outerRadius));
    // Area between two arcs, within the ends and above the foot, by thin upright slices.
    const area = (inner: number, outer: number) => {
      const steps = 20_000;
      let sum = 0;
      for (let k = 0; k < steps; k++) {
        const x = (length * (k + 0.5)) / steps - length / 2;
        const top = Math.sqrt(outer ** 2 - x ** 2);
        const bottom = Math.max(foot, inner > Math.abs(x) ? Math.sqrt(inner ** 2 - x ** 2) : 0);
        sum += (Math.max(0, top - bottom) * length) / steps;
      }
      return sum;
    };
    const halves = inboardDepth + outboardDepth - 2 * faceGap;
    const truth = area(innerRadius, outerRadius) * halves + area(edge, outerRadius) * (26 + 2 * faceGap);
    const [solid] = buildCaliper(caliper, await contextOf(corner, 0.005));
    expect(Math.abs(solid.volumeMm3 / truth - 1)).toBeLessThan(2e-4);
  });

  test('is above the axis at clocking 0 and behind it at 90, with the bleed screw placed and turned as given', async () => {
    const corner = benchCorner();
    const caliper = entryOf(corner, 'caliper');
    const context = await contextOf(corner);
    const wheelFromVehicle = invert(vehicleFromWheelAxis(corner.suspension));
    const middle = (clockingDeg: number): Vec3 => {
      const points = pointsIn(buildCaliper({ ...caliper, clockingDeg }, context)[0].mesh, wheelFromVehicle);
      const mean = (k: 0 | 1 | 2) => points.reduce((sum, point) => sum + point[k], 0) / points.length;
      return [mean(0), mean(1), mean(2)];
    };
    const [above, behind] = [middle(0), middle(90)];
    expect(above[2]).toBeGreaterThan(90);
    expect(Math.abs(above[0])).toBeLessThan(25);
    expect(behind[0]).toBeLessThan(-90);
    expect(Math.abs(behind[2])).toBeLessThan(25);

    // Past the outer arc on the side of larger clocking: seat at radius 180, 80 along, straight out along the radius of
    // the caliper's middle.
    const screw = { along: 80, radius: 180, depth: 20, directionDeg: 0, length: 30, diameter: 10 };
    const [solid] = buildCaliper({ ...caliper, clockingDeg: 0, bleedScrew: screw }, context);
    const tip: Vec3 = [-80, frictionFaces(corner).inboard - 20, Math.sqrt(180 ** 2 - 80 ** 2) + 30];
    expect(offSurface(solid, corner, 0, tip)).toBeLessThan(1e-3);
    const sideways: Vec3 = [tip[0] - 30, tip[1], tip[2] - 30];
    const turned = buildCaliper(
      { ...caliper, clockingDeg: 0, bleedScrew: { ...screw, directionDeg: 90 } },
      context,
    );
    expect(offSurface(turned[0], corner, 0, sideways)).toBeLessThan(1e-3);
  });

  test('has bolts, ears and bracket at the given places', async () => {
    const corner = benchCorner();
    const measured = entryOf(corner, 'caliper');
    // An inboard half that ends before the ears, so that they are free.
    const caliper = { ...measured, bleedScrew: undefined, body: { ...measured.body, inboardDepth: 15 } };
    const [solid] = buildCaliper(caliper, await contextOf(corner));
    const { mount } = caliper;
    const bolt: Vec3 = [
      mount.boltSpacing / 2,
      0,
      Math.sqrt(mount.boltRadius ** 2 - (mount.boltSpacing / 2) ** 2),
    ];
    const earFace = frictionFaces(corner).inboard - mount.earFace;
    // 40 mm of bolt from the outboard face of a 15 mm ear, past a 10 mm bracket: 15 mm stick out.
    expect(offSurface(solid, corner, 90, [bolt[0], earFace - 25, bolt[2]])).toBeLessThan(1e-3);
    // The bracket's foot, square to the radius at its measured end.
    expect(offSurface(solid, corner, 90, [0, earFace - 5, 74])).toBeLessThan(1e-3);
    expect(offSurface(solid, corner, 90, [80, earFace - 5, 74])).toBeLessThan(1e-3);
    expect(offSurface(solid, corner, 90, [0, earFace - 10, 90])).toBeLessThan(1e-3);
  });

  test.each([
    [{ outerRadius: 157 }, /body\.outerRadius 157\.00 mm leaves no bridge.*158\.00 mm/],
    [{ innerRadius: 160 }, /body\.innerRadius 160\.00 mm leaves no body.*158\.00 mm/],
    [{ outboardDepth: 2 }, /body\.outboardDepth 2\.00 mm.*more than body\.faceGap 3\.00 mm/],
    [{ inboardDepth: 3 }, /body\.inboardDepth 3\.00 mm/],
    [{ length: 360 }, /body\.length 360\.00 mm does not fit/],
  ])('rejects a body of %o', async (change, message) => {
    const corner = benchCorner();
    const caliper = entryOf(corner, 'caliper');
    const context = await contextOf(corner);
    expect(() => buildCaliper({ ...caliper, body: { ...caliper.body, ...change } }, context)).toThrow(
      message,
    );
  });

  test('rejects a bleed screw further along than its radius', async () => {
    const corner = benchCorner();
    const caliper = entryOf(corner, 'caliper');
    const context = await contextOf(corner);
    const bleedScrew = { ...caliper.bleedScrew!, along: 171 };
    expect(() => buildCaliper({ ...caliper, bleedScrew }, context)).toThrow(/bleedScrew\.along 171\.00 mm/);
  });

  test('rejects a corner without a rotor', async () => {
    const corner = benchCorner();
    corner.parts = corner.parts.filter(({ kind }) => kind !== 'rotor');
    const context = await contextOf(corner);
    expect(() => buildCaliper(entryOf(corner, 'caliper'), context)).toThrow(/add a part of kind "rotor"/);
  });
});
