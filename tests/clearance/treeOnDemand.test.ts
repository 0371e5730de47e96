import { expect, it } from 'vitest';
import { prepareBody } from '../../src/clearance/body.ts';
import { measure } from '../../src/clearance/query.ts';
import { SurfaceSearch } from '../../src/clearance/surfaceSearch.ts';
import {
  buildTree,
  completed,
  middleTriangle,
  openNode,
  type Tree,
  withOrientedBoxes,
} from '../../src/clearance/tree.ts';
import { treeOnDemand } from '../../src/clearance/treeOnDemand.ts';
import type { Mesh, Zone } from '../../src/solids/solid.ts';
import { randomRigid } from '../oracles/bruteForce.ts';
import { between, mulberry32 } from '../oracles/random.ts';
import { box, merged, meshOf, moved, rod, sphere, torus } from '../oracles/shapes.ts';

const SHAPES: Mesh[] = [
  box(8, 5, 3),
  moved(rod(3, -6, 6, 24, 3), randomRigid(mulberry32(5), 20)),
  sphere(5, 24),
  moved(torus(8, 2, 32, 20), randomRigid(mulberry32(6), 5)),
  merged(...Array.from({ length: 30 }, () => box(1, 1, 1))),
];

const cornersOf = ({ corners }: { corners: ArrayLike<number> }) =>
  Array.from({ length: corners.length / 9 }, (_, t) =>
    Array.from({ length: 9 }, (_, k) => corners[9 * t + k]).join(' '),
  ).sort();

it('gives each search the distance of a complete tree, before and after it is completed', () => {
  const random = mulberry32(11);
  for (const a of SHAPES) {
    for (const b of SHAPES) {
      const trees = [treeOnDemand(a), treeOnDemand(b)] as const;
      const search = new SurfaceSearch(...trees);
      const whole = new SurfaceSearch(withOrientedBoxes(buildTree(a)), withOrientedBoxes(buildTree(b)));
      for (let pose = 0; pose < 8; pose++) {
        const aFromB = randomRigid(random, 15);
        const limitMm = between(random, 1, 30);
        if (pose === 6) for (const tree of trees) completed(tree);
        for (const one of [search, whole]) {
          one.moveTo(aFromB);
          one.run(limitMm);
        }
        expect(search.crossing).toBe(whole.crossing);
        if (!whole.crossing) expect(search.distanceSq).toBe(whole.distanceSq);
      }
    }
  }
});

it('gives boxes to the nodes that a search meets only', () => {
  const tree = treeOnDemand(sphere(5, 24));
  const search = new SurfaceSearch(tree, withOrientedBoxes(buildTree(box(1, 1, 1))));
  search.moveTo(randomRigid(mulberry32(3), 15));
  search.run(30);
  const opened = tree.radii.filter((radius) => radius > 0).length;
  expect(opened).toBeGreaterThan(3);
  expect(opened).toBeLessThan(tree.radii.length / 2);
});

it('is complete on request: each triangle once, each node the sum of its children', () => {
  for (const mesh of SHAPES) {
    const tree = completed(treeOnDemand(mesh));
    expect(cornersOf(tree)).toEqual(cornersOf(buildTree(mesh)));
    expect(tree.onDemand).toBeUndefined();
    for (let node = 0; node < tree.right.length; node++) {
      const right = tree.right[node];
      if (right === 0) expect(tree.count[node]).toBe(1);
      else expect(tree.count[node]).toBe(tree.count[node + 1] + tree.count[right]);
    }
  }
  expect(completed(treeOnDemand(meshOf([], []))).right.length).toBe(0);
});

it('measures bodies as complete trees do, with and without zones', () => {
  const random = mulberry32(12);
  const zones: Zone[] = [{ shape: 'sphere', centre: [3, 0, 0], radiusMm: 3 }];
  const kinds = new Set<string>();
  for (const cut of [[], zones]) {
    for (const a of SHAPES) {
      for (const b of SHAPES) {
        const aFromB = randomRigid(random, 12);
        const measured = [true, false].map((fastBuild) =>
          measure(
            prepareBody(a, { zones: cut, chordErrorMm: 0.01, fastBuild }),
            prepareBody(b, { zones: [], chordErrorMm: 0.01, fastBuild }),
            aFromB,
            { limitMm: 20 },
          ),
        );
        const [fast, slow] = measured;
        kinds.add(slow.kind);
        expect(fast.kind).toBe(slow.kind);
        if (fast.kind === 'separated' && slow.kind === 'separated') {
          expect(fast.distanceMm).toBe(slow.distanceMm);
          expect(fast.errorMm).toBe(slow.errorMm);
        }
        if (fast.kind === 'overlapping' && slow.kind === 'overlapping')
          expect(Math.abs(fast.distanceMm - slow.distanceMm)).toBeLessThanOrEqual(
            fast.errorMm + slow.errorMm,
          );
      }
    }
  }
  expect([...kinds].sort()).toEqual(expect.arrayContaining(['overlapping', 'separated']));
});

it('gives the same depth whatever else has been searched before', () => {
  const random = mulberry32(13);
  const fine = [
    sphere(9, 40),
    torus(8, 3, 48, 24),
    moved(rod(4, -9, 9, 40, 6), randomRigid(mulberry32(7), 3)),
  ];
  let overlaps = 0;
  for (const a of fine) {
    for (const b of fine) {
      const bodies = () =>
        [a, b].map((mesh) => prepareBody({ ...mesh }, { chordErrorMm: 0.01, fastBuild: true }));
      const [usedA, usedB] = bodies();
      for (let pose = 0; pose < 6; pose++) {
        const aFromB = randomRigid(random, 9);
        const [freshA, freshB] = bodies();
        const fresh = measure(freshA, freshB, aFromB, { limitMm: 20 });
        expect(measure(usedA, usedB, aFromB, { limitMm: 20 })).toEqual(fresh);
        if (fresh.kind === 'overlapping' && fresh.distanceMm < 0) overlaps++;
      }
      expect(usedA.surface.onDemand).toBeDefined();
    }
  }
  expect(overlaps).toBeGreaterThan(40);
});

it('names the same middle triangle of a node whatever else is open', () => {
  const mesh = torus(8, 3, 24, 16);
  const [fresh, opened] = [treeOnDemand(mesh), treeOnDemand(mesh)];
  for (let node = 0; node < opened.right.length; node++) openNode(opened, node);
  const corners = (tree: Tree, triangle: number) => [...tree.corners.slice(9 * triangle, 9 * triangle + 9)];
  for (let node = 0; node < fresh.right.length; node++) {
    expect(corners(fresh, middleTriangle(fresh, node))).toEqual(
      corners(opened, middleTriangle(opened, node)),
    );
  }
});
