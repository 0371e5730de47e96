import { describe, expect, it } from 'vitest';
import {
  FeatureDistanceQuery,
  lineTree,
  type MeasuredFeature,
  patchTree,
} from '../../src/clearance/featureDistance.ts';
import { applyPoint, identity, rotationAbout, translation } from '../../src/math/rigid.ts';
import { add, distance, normalize, scale, type Vec3 } from '../../src/math/vec.ts';
import type { Mesh } from '../../src/solids/solid.ts';
import { bruteForceDistance, randomRigid } from '../oracles/bruteForce.ts';
import { between, mulberry32 } from '../oracles/random.ts';
import { box, rod } from '../oracles/shapes.ts';

const SEED = 417;

const feature = (
  tree: MeasuredFeature['tree'],
  direction?: MeasuredFeature['direction'],
): MeasuredFeature => ({
  tree,
  errorMm: 0.25,
  direction,
  isPoint: true,
});

describe(`distance of two features (seed ${SEED})`, () => {
  const random = mulberry32(SEED);
  const place = (): Vec3 => [
    between(random, -300, 300),
    between(random, -300, 300),
    between(random, -300, 300),
  ];

  it('is the distance of two points, wherever their parts are', () => {
    for (let round = 0; round < 200; round++) {
      const [a, b] = [place(), place()];
      const [vehicleFromA, vehicleFromB] = [randomRigid(random, 400), randomRigid(random, 400)];
      const found = new FeatureDistanceQuery(feature(lineTree([a])), feature(lineTree([b]))).at(
        vehicleFromA,
        vehicleFromB,
      );
      const expected = distance(applyPoint(vehicleFromA, a), applyPoint(vehicleFromB, b));
      expect(found.distanceMm).toBeCloseTo(expected, 9);
      expect(distance(found.from, applyPoint(vehicleFromA, a))).toBeLessThan(1e-9);
      expect(distance(found.to, applyPoint(vehicleFromB, b))).toBeLessThan(1e-9);
      expect(found.errorMm).toBe(0.5);
    }
  });

  it('is the shortest distance of points, edges and faces, against every triangle', () => {
    const line = (from: Vec3, to: Vec3) => ({
      positions: Float64Array.from([...from, ...to]),
      triangles: Uint32Array.of(0, 1, 1),
    });
    const patch = ({ positions, triangles }: Mesh, chosen: readonly number[]) => ({
      mesh: {
        positions,
        triangles: Uint32Array.from(chosen.flatMap((t) => [...triangles.subarray(3 * t, 3 * t + 3)])),
      },
      tree: patchTree({ positions, triangles }, Uint32Array.from(chosen)),
    });
    const patches = [
      patch(box(30, 50, 80), [0, 1, 6]),
      patch(
        rod(12, -40, 40, 24),
        Array.from({ length: 40 }, (_, i) => i),
      ),
    ];
    for (let round = 0; round < 150; round++) {
      const [from, to] = [place(), place()];
      const features = [
        ...patches,
        { mesh: line(from, to), tree: lineTree([from, to]) },
        { mesh: line(from, from), tree: lineTree([from]) },
      ];
      const [a, b] = [features[Math.floor(random() * 4)], features[Math.floor(random() * 4)]];
      const vehicleFromB = randomRigid(random, 200);
      const found = new FeatureDistanceQuery(feature(a.tree), feature(b.tree)).at(identity(), vehicleFromB);
      const expected = bruteForceDistance(a.mesh, b.mesh, vehicleFromB);
      expect(Math.abs(found.distanceMm - expected)).toBeLessThan(1e-8);
      expect(Math.abs(distance(found.from, found.to) - found.distanceMm)).toBeLessThan(1e-9);
    }
  });

  it('follows its parts: one query at successive poses', () => {
    const query = new FeatureDistanceQuery(
      feature(lineTree([[0, 0, 0]])),
      feature(
        lineTree([
          [0, 0, 10],
          [0, 50, 10],
        ]),
      ),
    );
    for (const shift of [0, 25, -30, 5]) {
      const found = query.at(identity(), translation([0, shift, 0]));
      const beyond = Math.max(0, shift, -shift - 50);
      expect(found.distanceMm).toBeCloseTo(Math.hypot(10, beyond), 9);
    }
  });

  it('gives the angle between edges, between faces, and of an edge to a face', () => {
    for (let round = 0; round < 100; round++) {
      const rad = between(random, 0, Math.PI / 2);
      const unit = normalize(add(place(), [0, 0, 1e-3]));
      const axis = normalize([unit[1] + 0.1, -unit[0], 0]);
      const square = normalize(
        add(axis, scale(unit, -(axis[0] * unit[0] + axis[1] * unit[1] + axis[2] * unit[2]))),
      );
      const turned = rotationAbout([0, 0, 0], square, rad);
      const direction = (kind: 'along' | 'normal', sign: number) => ({
        kind,
        unit: scale(unit, sign),
        tiltErrorRad: 0.001,
      });
      const angle = (a: 'along' | 'normal', b: 'along' | 'normal') =>
        new FeatureDistanceQuery(
          feature(lineTree([[0, 0, 0]]), direction(a, 1)),
          feature(lineTree([[0, 0, 0]]), direction(b, random() < 0.5 ? 1 : -1)),
        ).at(identity(), turned).angle;
      expect(angle('along', 'along')?.rad).toBeCloseTo(rad, 9);
      expect(angle('normal', 'normal')?.rad).toBeCloseTo(rad, 9);
      expect(angle('along', 'normal')?.rad).toBeCloseTo(Math.PI / 2 - rad, 9);
      expect(angle('along', 'normal')?.errorRad).toBe(0.002);
    }
  });

  it('gives no angle for a point or for a feature too small to have a direction', () => {
    const point = feature(lineTree([[0, 0, 0]]));
    const direction = { kind: 'along' as const, unit: [1, 0, 0] as const, tiltErrorRad: 0.9 };
    const small = feature(lineTree([[0, 0, 0]]), direction);
    expect(new FeatureDistanceQuery(point, small).at(identity(), identity()).angle).toBeUndefined();
    expect(new FeatureDistanceQuery(small, small).at(identity(), identity()).angle).toBeUndefined();
  });
});
