import { describe, expect, it } from 'vitest';
import { prepareBody } from '../../src/clearance/body.ts';
import { clipToBox, polygon } from '../../src/clearance/clipToBox.ts';
import { closestOnTree, nearestHit } from '../../src/clearance/closestPoint.ts';
import { insideTree, windingOfAngles } from '../../src/clearance/inside.ts';
import { BOX } from '../../src/clearance/orientedBoxes.ts';
import { buildTree, withOrientedBoxes } from '../../src/clearance/tree.ts';
import { isClosed, weld } from '../../src/clearance/weld.ts';
import { applyPoint, rotationAbout, translation } from '../../src/math/rigid.ts';
import { normalize, type Vec3 } from '../../src/math/vec.ts';
import type { Mesh } from '../../src/solids/solid.ts';
import { bruteForcePointDistance, randomRigid } from '../oracles/bruteForce.ts';
import { between, mulberry32 } from '../oracles/random.ts';
import {
  box,
  merged,
  meshOf,
  moved,
  rod,
  sphere,
  torus,
  turnedInsideOut,
  withoutTriangle,
} from '../oracles/shapes.ts';

const SHAPES: Record<string, Mesh> = {
  box: box(8, 5, 3),
  rod: moved(rod(3, -6, 6, 24, 3), randomRigid(mulberry32(5), 20)),
  sphere: sphere(5, 16),
  torus: moved(torus(8, 2, 16, 10), randomRigid(mulberry32(6), 300)),
  'hundreds in one place': merged(...Array.from({ length: 30 }, () => box(1, 1, 1))),
  needle: moved(rod(1e-7, -50, 50, 6), randomRigid(mulberry32(7), 20)),
};

describe('tree', () => {
  it.each(Object.entries(SHAPES))(
    '%s: contains every triangle once, and every box contains its triangles',
    (_, mesh) => {
      const tree = withOrientedBoxes(buildTree(mesh));
      const sorted = (corners: ArrayLike<number>) =>
        Array.from({ length: corners.length / 9 }, (_, t) =>
          Array.from({ length: 9 }, (_, k) => corners[9 * t + k]).join(' '),
        ).sort();
      const given = Array.from(mesh.triangles, (v) => [...mesh.positions.subarray(3 * v, 3 * v + 3)]).flat();
      expect(sorted(tree.corners)).toEqual(sorted(given));
      let leaves = 0;
      const walk = (node: number, depth: number): void => {
        expect(depth).toBeLessThanOrEqual(tree.depth);
        const [b, o] = [6 * node, BOX * node];
        for (let i = 9 * tree.first[node]; i < 9 * (tree.first[node] + tree.count[node]); i += 3) {
          for (let k = 0; k < 3; k++) {
            expect(Math.abs(tree.corners[i + k] - tree.boxes[b + k])).toBeLessThanOrEqual(
              tree.boxes[b + 3 + k] * (1 + 1e-15) + 1e-12,
            );
            const along = [0, 1, 2].reduce(
              (sum, n) =>
                sum + tree.oriented[o + 3 + 3 * k + n] * (tree.corners[i + n] - tree.oriented[o + n]),
              0,
            );
            expect(Math.abs(along)).toBeLessThanOrEqual(tree.oriented[o + 12 + k] + 1e-12);
          }
        }
        const axes = tree.oriented.subarray(o + 3, o + 12);
        for (let k = 0; k < 3; k++) {
          for (let n = 0; n < 3; n++) {
            const dot = [0, 1, 2].reduce((sum, c) => sum + axes[3 * k + c] * axes[3 * n + c], 0);
            expect(dot).toBeCloseTo(k === n ? 1 : 0, 13);
          }
        }
        if (tree.right[node] === 0) {
          expect(tree.count[node]).toBe(1);
          leaves++;
          return;
        }
        expect(tree.count[node]).toBe(tree.count[node + 1] + tree.count[tree.right[node]]);
        walk(node + 1, depth + 1);
        walk(tree.right[node], depth + 1);
      };
      walk(0, 1);
      expect(leaves).toBe(mesh.triangles.length / 3);
    },
  );

  it('is the same after every build', () => {
    expect(buildTree(SHAPES.torus)).toEqual(buildTree(SHAPES.torus));
  });
  it('has no nodes without triangles', () => {
    const empty = buildTree(meshOf([], []));
    expect(empty.right.length).toBe(0);
    expect(closestOnTree(empty, 0, 0, 0, Number.POSITIVE_INFINITY)).toBe(Number.POSITIVE_INFINITY);
    expect(insideTree(empty, 0, 0, 0)).toBe(false);
  });
});

const randomPoint = (random: () => number, size: number): Vec3 => [
  between(random, -size, size),
  between(random, -size, size),
  between(random, -size, size),
];

describe('nearest point of a surface', () => {
  it.each(Object.entries(SHAPES))('%s: agrees with every triangle', (name, mesh) => {
    const tree = buildTree(mesh);
    for (let seed = 1; seed <= 40; seed++) {
      const p = randomPoint(mulberry32(seed), 15);
      const slow = bruteForcePointDistance(mesh, p);
      const d = Math.sqrt(closestOnTree(tree, ...p, Number.POSITIVE_INFINITY));
      expect(Math.abs(d - slow), `${name}, seed ${seed}`).toBeLessThanOrEqual(1e-9 * slow);
      expect(Math.hypot(...p.map((x, k) => x - nearestHit.point[k]))).toBeCloseTo(d, 9);
      expect(closestOnTree(tree, ...p, (d * 0.99) ** 2)).toBe((d * 0.99) ** 2);
      expect(nearestHit.triangle).toBe(-1);
    }
  });
});

describe('inside', () => {
  const half: Record<string, (p: Vec3) => boolean> = {
    box: ([x, y, z]) => Math.abs(x) < 4 && Math.abs(y) < 2.5 && Math.abs(z) < 1.5,
    'integer box': ([x, y, z]) => Math.abs(x) < 2 && Math.abs(y) < 2 && Math.abs(z) < 2,
  };
  it('of a box: random points, and points level with its corners and edges', () => {
    const tree = buildTree(SHAPES.box);
    for (let seed = 1; seed <= 2000; seed++) {
      const p = randomPoint(mulberry32(seed), 5);
      expect(insideTree(tree, ...p), `seed ${seed}`).toBe(half.box(p));
    }
    const grid = buildTree(box(4, 4, 4));
    for (const x of [-3, -1, 0, 1, 3])
      for (const y of [-3, -1, 0, 1, 3])
        for (const z of [-3, -1, 0, 1, 3])
          expect(insideTree(grid, x, y, z), `${x} ${y} ${z}`).toBe(half['integer box']([x, y, z]));
  });
  it('agrees with solid angles', () => {
    for (const name of ['sphere', 'rod', 'torus']) {
      const tree = buildTree(SHAPES[name]);
      let inside = 0;
      for (let seed = 1; seed <= 400; seed++) {
        const [x, y, z] = randomPoint(mulberry32(seed), 1).map(
          (share, k) => tree.boxes[k] + 1.1 * share * tree.boxes[3 + k],
        );
        const found = insideTree(tree, x, y, z);
        expect(found, `${name}, seed ${seed}`).toBe(windingOfAngles(tree, x, y, z) > 0.5);
        if (found) inside++;
      }
      expect(inside).toBeGreaterThan(40);
    }
  });
  it('of a shell: in its wall, not in its void; of two overlapping boxes: in both', () => {
    const shell = buildTree(merged(sphere(10, 24), turnedInsideOut(sphere(6, 24))));
    expect(insideTree(shell, 1, 0.5, 0.2)).toBe(false);
    expect(insideTree(shell, 8, 0.5, 0.2)).toBe(true);
    const both = buildTree(merged(box(4, 4, 4), moved(box(4, 4, 4), translation([2, 0, 0]))));
    expect(insideTree(both, 1, 0.1, 0.2)).toBe(true);
  });
  it('with every ray toward a corner of the mesh', () => {
    // Points set back from each corner along the first ray directions.
    const mesh = sphere(10, 12);
    const tree = buildTree(mesh);
    for (let v = 0; v < mesh.positions.length; v += 3) {
      for (const [ux, uy, uz] of [
        [0.8017837257, 0.5345224838, 0.2672612419],
        [-0.3713906764, 0.742781353, 0.557086014],
      ]) {
        const [x, y, z] = [ux, uy, uz].map((u, k) => mesh.positions[v + k] - 3 * u);
        expect(insideTree(tree, x, y, z)).toBe(windingOfAngles(tree, x, y, z) > 0.5);
      }
    }
  });
});

describe('closed', () => {
  it('is true for bodies, false with a triangle missing or reversed', () => {
    for (const [name, mesh] of Object.entries(SHAPES)) expect(isClosed(weld(mesh)), name).toBe(true);
    expect(isClosed(weld(withoutTriangle(SHAPES.sphere, 7)))).toBe(false);
    const turned = box(2, 2, 2);
    turned.triangles.set([turned.triangles[1], turned.triangles[0]]);
    expect(isClosed(weld(turned))).toBe(false);
    expect(isClosed(meshOf([], []))).toBe(false);
  });
  it('is true for a mesh of separate triangles', () => {
    const { positions, triangles } = SHAPES.torus;
    const loose: Mesh = {
      positions: Float64Array.from([...triangles].flatMap((v) => [...positions.subarray(3 * v, 3 * v + 3)])),
      triangles: triangles.map((_, i) => i),
    };
    const body = prepareBody(loose, { chordErrorMm: 0 });
    expect(body.closed).toBe(true);
    expect(body.pieces.length).toBe(3);
  });
  it('rejects an invalid mesh and names the vertex or triangle', () => {
    const mesh = box(2, 2, 2);
    mesh.positions[4] = Number.NaN;
    expect(() => prepareBody(mesh, { chordErrorMm: 0 })).toThrow(/vertex 1 of the mesh is at/);
    const wrong = box(2, 2, 2);
    wrong.triangles[5] = 8;
    expect(() => prepareBody(wrong, { chordErrorMm: 0 })).toThrow(
      'triangle 1 refers to vertex 8, but the mesh has 8 vertices',
    );
    const odd: Mesh = { positions: new Float64Array(4), triangles: new Uint32Array(0) };
    expect(() => prepareBody(odd, { chordErrorMm: 0 })).toThrow(/both must be multiples of 3/);
  });
});

it('clips a triangle to a box: area of the part by counting', () => {
  const turn = rotationAbout([0, 0, 0], normalize([1, 2, 3]), 0.7);
  const axes = [0, 1, 2].flatMap((k) => [turn[k], turn[4 + k], turn[8 + k]]);
  const bounds = Float64Array.of(0, 0, 0, ...axes, 1, 1, 1, Math.sqrt(3));
  for (let seed = 1; seed <= 60; seed++) {
    const random = mulberry32(seed);
    const t = Float64Array.from([
      ...randomPoint(random, 2),
      ...randomPoint(random, 2),
      ...randomPoint(random, 2),
    ]);
    const turned = [0, 3, 6].flatMap((i) => applyPoint(turn, [t[i], t[i + 1], t[i + 2]]));
    polygon.set(turned);
    const count = clipToBox(3, bounds, 0);
    const area = (p: ArrayLike<number>, i: number, j: number, k: number): number => {
      const u = [0, 1, 2].map((n) => p[j + n] - p[i + n]);
      const v = [0, 1, 2].map((n) => p[k + n] - p[i + n]);
      return Math.hypot(u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]) / 2;
    };
    let part = 0;
    for (let c = 3; c + 3 < 3 * count; c += 3) part += area(polygon, 0, c, c + 3);
    const n = 120;
    let inside = 0;
    for (let i = 0; i < n; i++) {
      for (let j = 0; j < n - i; j++) {
        for (const shift of j < n - i - 1 ? [1 / 3, 2 / 3] : [1 / 3]) {
          const [u, v] = [(i + shift) / n, (j + shift) / n];
          const within = [0, 1, 2].every(
            (k) => Math.abs(t[k] + u * (t[3 + k] - t[k]) + v * (t[6 + k] - t[k])) <= 1,
          );
          if (within) inside++;
        }
      }
    }
    const whole = area(t, 0, 3, 6);
    expect(Math.abs(part - (whole * inside) / n ** 2), `seed ${seed}`).toBeLessThan(0.02 * whole);
  }
});

it('shares the triangles and boxes of a tree between threads', () => {
  const tree = withOrientedBoxes(buildTree(box(8, 5, 3)));
  const given = structuredClone(tree);
  for (const name of ['corners', 'boxes', 'oriented'] as const) {
    tree[name][0] = 12345;
    expect(given[name][0], name).toBe(12345);
  }
});
