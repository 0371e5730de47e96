import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { closestOnTree } from '../../../src/clearance/closestPoint.ts';
import { buildTree } from '../../../src/clearance/tree.ts';
import { applyDirection, applyPoint } from '../../../src/math/rigid.ts';
import { addScaled, distance, dot, lerp, normalize, sub, type Vec3 } from '../../../src/math/vec.ts';
import { buildBox } from '../../../src/parts/box/build.ts';
import { buildHub } from '../../../src/parts/hub/build.ts';
import { buildPlate } from '../../../src/parts/plate/build.ts';
import { buildTube } from '../../../src/parts/tube/build.ts';
import { buildSolids } from '../../../src/solids/catalogue.ts';
import type { Feature } from '../../../src/solids/features/feature.ts';
import { featuresOf } from '../../../src/solids/features/featuresOf.ts';
import type { Solid } from '../../../src/solids/solid.ts';
import { axialStack, vehicleFromWheelAxis, wheelFromClock } from '../../../src/solids/wheelFrame.ts';
import { readDesign } from '../../design/readDesign.ts';
import { between, mulberry32 } from '../../oracles/random.ts';
import { benchCorner, contextOf, entryOf, randomPoint } from '../benchCorner.ts';

const SEED = 20261;

const ofKind = <K extends Feature['kind']>(features: readonly Feature[], kind: K) =>
  features.filter((one): one is Extract<Feature, { kind: K }> => one.kind === kind);
const featuresOfSolid = ({ mesh, shown, chordErrorMm }: Pick<Solid, 'mesh' | 'shown' | 'chordErrorMm'>) =>
  featuresOf(shown ?? mesh, chordErrorMm);
/** Both errors may add up if two features are on one line. */
const isParallel = (a: Vec3, b: Vec3, tiltRad: number) =>
  Math.acos(Math.min(1, Math.abs(dot(a, b)))) <= tiltRad + 1e-7;

describe(`features of built solids (seed ${SEED})`, () => {
  const random = mulberry32(SEED);

  it('finds every bolt hole of a bearing housing at its place on the circle, at both faces', async () => {
    for (let round = 0; round < 8; round++) {
      const corner = benchCorner();
      const hub = entryOf(corner, 'hub');
      hub.mountBoltCount = 3 + Math.floor(random() * 4);
      hub.mountBoltDiameter = between(random, 6, 16);
      hub.mountBoltCircle = between(random, 95, 120);
      hub.housingDiameter = 70;
      hub.spigotDiameter = 60;
      hub.mountFlangeDiameter = hub.mountBoltCircle + hub.mountBoltDiameter + between(random, 4, 20);
      hub.clockingDeg = between(random, 0, 90);
      const [, housing] = buildHub(hub, await contextOf(corner, between(random, 0.02, 0.1)));
      const features = featuresOfSolid(housing);
      const holes = ofKind(features, 'ring').filter(
        ({ form, radiusMm }) => form === 'hole' && Math.abs(radiusMm - hub.mountBoltDiameter / 2) < 0.01,
      );
      const { hubFaceY, housingFaceDepth } = axialStack(corner);
      const face = hubFaceY + housingFaceDepth;
      const vehicleFromWheel = vehicleFromWheelAxis(corner.suspension);
      const expected = [face, face + hub.mountFlangeThickness].flatMap((y) =>
        Array.from({ length: hub.mountBoltCount }, (_, k) =>
          applyPoint(
            vehicleFromWheel,
            applyPoint(wheelFromClock(hub.clockingDeg + (360 * k) / hub.mountBoltCount), [
              0,
              y,
              hub.mountBoltCircle / 2,
            ]),
          ),
        ),
      );
      expect(holes).toHaveLength(expected.length);
      for (const place of expected) {
        const found = holes.filter((hole) => distance(hole.centre, place) <= hole.errorMm);
        expect(found).toHaveLength(1);
        expect(found[0].errorMm).toBeLessThan(2e-3);
        expect(Math.abs(found[0].radiusMm - hub.mountBoltDiameter / 2)).toBeLessThanOrEqual(
          found[0].radiusErrorMm,
        );
        expect(
          isParallel(found[0].axis, applyDirection(vehicleFromWheel, [0, 1, 0]), found[0].tiltErrorRad),
        ).toBe(true);
      }
      const bores = ofKind(features, 'cylinder').filter(({ form }) => form === 'hole');
      expect(bores).toHaveLength(hub.mountBoltCount);
      for (const bore of bores)
        expect(Math.abs(bore.radiusMm - hub.mountBoltDiameter / 2)).toBeLessThanOrEqual(bore.radiusErrorMm);
    }
  });

  it('finds both ends and the side of a tube at any angle', async () => {
    const corner = benchCorner();
    for (let round = 0; round < 20; round++) {
      const [from, to] = [randomPoint(random, 600), randomPoint(random, 600)];
      const diameter = between(random, 15, 80);
      const [tube] = buildTube(
        { id: 't', kind: 'tube', carrier: 'chassis', from, to, diameter, allowance: 0 } as never,
        await contextOf(corner, between(random, 0.01, 0.2)),
      );
      const features = featuresOfSolid(tube);
      const rings = ofKind(features, 'ring');
      expect(rings.map(({ form }) => form)).toEqual(['round', 'round']);
      for (const end of [from, to]) {
        const found = rings.filter(({ centre, errorMm }) => distance(centre, end) <= errorMm);
        expect(found).toHaveLength(1);
        expect(Math.abs(found[0].radiusMm - diameter / 2)).toBeLessThanOrEqual(found[0].radiusErrorMm);
        expect(found[0].spanRad).toBe(2 * Math.PI);
      }
      const [side, ...others] = ofKind(features, 'cylinder');
      expect(others).toEqual([]);
      expect(Math.abs(side.radiusMm - diameter / 2)).toBeLessThanOrEqual(side.radiusErrorMm);
      expect(distance(side.centre, lerp(from, to, 0.5))).toBeLessThan(0.01);
      expect(ofKind(features, 'flat')).toHaveLength(2);
      expect(ofKind(features, 'edge')).toEqual([]);
    }
  });

  it('finds the twelve edges and six faces of a box', async () => {
    const level = { rollDeg: 0, pitchDeg: 0, yawDeg: 0 };
    const corner = benchCorner();
    for (let round = 0; round < 20; round++) {
      const size = [between(random, 5, 300), between(random, 5, 300), between(random, 5, 300)] as const;
      const centre = randomPoint(random, 500);
      const [box] = buildBox(
        { id: 'b', kind: 'box', carrier: 'chassis', centre, size, ...level, allowance: 0 } as never,
        await contextOf(corner),
      );
      const features = featuresOfSolid(box);
      const edges = ofKind(features, 'edge');
      expect(edges.map(({ from, to }) => distance(from, to)).sort((a, b) => a - b)).toEqual(
        [...size, ...size, ...size, ...size].sort((a, b) => a - b).map((s) => expect.closeTo(s, 3)),
      );
      const faces = ofKind(features, 'flat');
      expect(faces).toHaveLength(6);
      for (const { normal, areaMm2 } of faces) {
        const k = normal.findIndex((x) => Math.abs(x) > 0.5);
        expect(Math.abs(normal[k])).toBeCloseTo(1, 6);
        const wantedMm2 = (size[0] * size[1] * size[2]) / size[k];
        expect(Math.abs(areaMm2 / wantedMm2 - 1)).toBeLessThan(1e-4);
      }
      expect(features).toHaveLength(18);
    }
  });

  it('finds the two faces of a plate, and a face and an edge for each of its sides', async () => {
    const corner = benchCorner();
    for (let round = 0; round < 20; round++) {
      const sides = 3 + Math.floor(random() * 3);
      const outline = Array.from({ length: sides }, (_, i): Vec3 => {
        const angle = (2 * Math.PI * (i + between(random, 0, 0.4))) / sides;
        const radius = between(random, 60, 200);
        return [radius * Math.cos(angle), radius * Math.sin(angle), 300];
      });
      const thickness = between(random, 3, 12);
      const [plate] = buildPlate(
        { id: 'p', kind: 'plate', carrier: 'chassis', outline, thickness, allowance: 0 } as never,
        await contextOf(corner),
      );
      const features = featuresOfSolid(plate);
      const area =
        outline.reduce((sum, [x, y], i) => {
          const [u, v] = outline[(i + 1) % sides];
          return sum + x * v - u * y;
        }, 0) / 2;
      const faces = ofKind(features, 'flat');
      expect(faces).toHaveLength(2 + sides);
      const large = faces.filter(({ normal }) => Math.abs(normal[2]) > 0.99);
      expect(large.map(({ areaMm2 }) => areaMm2 / area)).toEqual([
        expect.closeTo(1, 4),
        expect.closeTo(1, 4),
      ]);
      expect(ofKind(features, 'edge')).toHaveLength(3 * sides);
    }
  });
});

describe('round edges of the demo corners', () => {
  it.each(['gravelbeck', 'larkrise'])('of %s are on the surface of a finer build', async (name) => {
    const design = readDesign(
      readFileSync(new URL(`../../../demo-data/${name}.corner.json`, import.meta.url), 'utf8'),
    );
    const { corner } = design;
    const [coarse, fine] = [await buildSolids(corner, 0.1), await buildSolids(corner, 0.01)];
    let compared = 0;
    coarse.forEach((solid, i) => {
      const tree = buildTree(fine[i].shown ?? fine[i].mesh);
      for (const ring of ofKind(featuresOfSolid(solid), 'ring')) {
        const line = ring.outline[0];
        for (let k = 3; k + 5 < line.length; k += 3) {
          const halfway = lerp(
            [line[k - 3], line[k - 2], line[k - 1]],
            [line[k], line[k + 1], line[k + 2]],
            0.5,
          );
          const away = sub(halfway, ring.centre);
          const flat = addScaled(away, ring.axis, -dot(away, ring.axis));
          const [x, y, z] = addScaled(ring.centre, normalize(flat), ring.radiusMm);
          const off = Math.sqrt(closestOnTree(tree, x, y, z, Number.POSITIVE_INFINITY));
          const context = `${solid.id}: ring of radius ${ring.radiusMm} mm at ${ring.centre}`;
          expect(off, context).toBeLessThanOrEqual(
            ring.errorMm + ring.radiusErrorMm + Math.max(fine[i].chordErrorMm, 0.01),
          );
        }
        compared += 1;
      }
    });
    expect(compared).toBeGreaterThan(50);
  });
});
