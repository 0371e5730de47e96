import { describe, expect, it } from 'vitest';
import { depthAt } from '../../src/clearance/depth.ts';
import { DepthProbe } from '../../src/clearance/depthProbe.ts';
import { ExitPlanes } from '../../src/clearance/exitPlanes.ts';
import { isHullOutside } from '../../src/clearance/hullOutside.ts';
import { windingOfAngles } from '../../src/clearance/inside.ts';
import { buildTree, withOrientedBoxes } from '../../src/clearance/tree.ts';
import { weld } from '../../src/clearance/weld.ts';
import { normalize, type Vec3 } from '../../src/math/vec.ts';
import type { Mesh } from '../../src/solids/solid.ts';
import { randomRigid } from '../oracles/bruteForce.ts';
import { between, cases, mulberry32 } from '../oracles/random.ts';
import { box, moved, ring, rod, sphere, torus } from '../oracles/shapes.ts';

type Random = () => number;

const tube = ring(
  [
    [7, -20],
    [10, -20],
    [10, 20],
    [7, 20],
  ],
  16,
);
const SHAPES: [string, Mesh][] = [
  ['box', box(12, 8, 5)],
  ['rod', moved(rod(4, -20, 20, 16), randomRigid(mulberry32(3), 5))],
  ['tube', moved(tube, randomRigid(mulberry32(4), 5))],
  ['ball', sphere(8, 16)],
  ['torus', moved(torus(9, 3, 16, 10), randomRigid(mulberry32(5), 5))],
];
const treeOf = (mesh: Mesh) => withOrientedBoxes(buildTree(weld(mesh)));

/** Corners of a triangle or of a box, randomly oriented. */
function hullOf(random: Random, count: number): Float64Array {
  const size = between(random, 0.2, 8);
  const middle = [0, 1, 2].map(() => between(random, -14, 14));
  const corners =
    count === 3
      ? [0, 1, 2].flatMap(() => [0, 1, 2].map(() => between(random, -size, size)))
      : Array.from(box(size, size * random(), size * random() * 0.2).positions);
  const turned = moved(
    { positions: Float64Array.from(corners), triangles: new Uint32Array() },
    randomRigid(random, 0),
  );
  return turned.positions.map((x, k) => x + middle[k % 3]);
}

/** A point of the hull. */
function pointIn(random: Random, hull: Float64Array): Vec3 {
  const weights = Array.from(
    { length: hull.length / 3 },
    () => Math.abs(Math.log(1 - random())) ** (random() < 0.3 ? 4 : 1),
  );
  const sum = weights.reduce((total, w) => total + w, 0);
  const at = (k: number) => weights.reduce((total, w, i) => total + (w / sum) * hull[3 * i + k], 0);
  return [at(0), at(1), at(2)];
}

describe.each(SHAPES)('hulls about a %s', (_, mesh) => {
  const tree = treeOf(mesh);

  it.each([3, 8])('of %d points: no hull proved outside has a point inside', (count) => {
    let proven = 0;
    for (let seed = 1; seed <= cases(100, 400); seed++) {
      const random = mulberry32(seed);
      const hull = hullOf(random, count);
      const axis = normalize([random() - 0.5, random() - 0.5, random() - 0.5]);
      if (!isHullOutside(tree, hull, count, axis)) continue;
      proven++;
      for (let k = 0; k < 20; k++)
        expect(Math.abs(windingOfAngles(tree, ...pointIn(random, hull))), `seed ${seed}`).toBeLessThan(0.5);
    }
    expect(proven).toBeGreaterThan(40);
  });

  it.each([3, 8])('of %d points: no point is deeper than the bound from planes', (count) => {
    const probe = new DepthProbe(tree);
    const planes = new ExitPlanes(tree, probe);
    let bounded = 0;
    let two = 0;
    for (let seed = 1; seed <= cases(300, 1500); seed++) {
      const random = mulberry32(seed);
      const hull = hullOf(random, count);
      const at = (k: number) => {
        let sum = 0;
        for (let i = k; i < 3 * count; i += 3) sum += hull[i];
        return sum / count;
      };
      const [x, y, z] = [at(0), at(1), at(2)];
      probe.evaluate(x, y, z, undefined);
      expect(probe.insideMm).toBeCloseTo(depthAt(tree, x, y, z), 9);
      const { insideMm, triangle } = probe;
      const middle = { x, y, z, insideMm, triangle };
      const doneMm = between(random, 0, 3);
      const goal = { doneMm, marginMm: between(random, 0.01, 0.3) };
      const boundMm = planes.boundOf(hull, count, middle, 20, goal);
      if (boundMm === Number.POSITIVE_INFINITY) continue;
      bounded++;
      if (boundMm !== doneMm) two++;
      for (let k = 0; k < 30; k++)
        expect(depthAt(tree, ...pointIn(random, hull)), `seed ${seed}`).toBeLessThanOrEqual(boundMm + 1e-9);
    }
    expect(bounded).toBeGreaterThan(100);
    expect(two).toBeGreaterThan(10);
  });
});
