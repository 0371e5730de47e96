/**
 * Times of a clearance query against three-mesh-bvh's `closestPointToGeometry`, in one run on the same meshes and
 * poses: `npx tsx tests/bench/query.ts`. Shapes the size of a corner's: a barrel, a tyre and a rotor against
 * assemblies of rods, boxes and balls, moved as a corner moves.
 */
import { BufferAttribute, BufferGeometry, Matrix4 } from 'three';
import { MeshBVH, SAH } from 'three-mesh-bvh';
import { prepareBody } from '../../src/clearance/body.ts';
import { PairQuery } from '../../src/clearance/query.ts';
import { compose, type Rigid, rotationAbout, toMatrix4, translation } from '../../src/math/rigid.ts';
import type { Mesh } from '../../src/solids/solid.ts';
import { box, capsule, merged, moved, ring, rod, sphere, torus } from '../oracles/shapes.ts';

const X = [1, 0, 0] as const;
const Z = [0, 0, 1] as const;
const quarter = rotationAbout([0, 0, 0], X, Math.PI / 2);
/** From an axis along z to one along y. */
const onY = (mesh: Mesh): Mesh => moved(mesh, quarter);
const at = (mesh: Mesh, x: number, y: number, z: number): Mesh => moved(mesh, translation([x, y, z]));

/** A rim's barrel, 5 degree seats and a drop centre, 4 mm thick. */
function barrel(): Mesh {
  const outside: [number, number][] = [];
  const inside: [number, number][] = [];
  for (let k = 0; k <= 19; k++) {
    const z = -110 + (220 * k) / 19;
    const drop = 22 * Math.exp(-(((z + 20) / 35) ** 2)) - 8 * (Math.abs(z) / 110) ** 6;
    outside.push([203 - drop, z]);
    inside.push([199 - drop, z]);
  }
  return onY(ring([...outside, ...inside.reverse()], 150));
}

/** Two arms, a ball, a bracket: what stands in a wheel. */
function assembly(radius: number): Mesh {
  return merged(
    at(moved(capsule(14, 90, 64), quarter), 0, 20, radius - 14),
    at(sphere(18, 64), 30, 0, radius - 30),
    at(box(60, 50, 20), -20, 30, radius - 50),
    at(rod(12, -100, 60, 64, 16), 60, -10, 0),
    at(moved(rod(9, -90, 110, 48, 20), rotationAbout([0, 0, 0], Z, 0.3)), -60, 0, -40),
  );
}

interface Case {
  name: string;
  a: Mesh;
  b: Mesh;
}

const CASES: Case[] = [
  { name: 'barrel and what stands in it', a: barrel(), b: assembly(140) },
  {
    name: 'tyre and arms beside it',
    a: onY(torus(320, 95, 128, 48)),
    b: at(assembly(120), 0, -190, 110),
  },
  {
    name: 'rotor and bracket',
    a: onY(
      ring(
        Array.from({ length: 40 }, (_, k): [number, number] => {
          const angle = (2 * Math.PI * k) / 40;
          return [105 + 45 * Math.cos(angle), 11 * Math.sin(angle)];
        }),
        150,
      ),
    ),
    b: at(assembly(100), 0, 60, 30),
  },
  {
    name: 'crossing rods',
    a: rod(16, -250, 250, 64),
    b: at(moved(rod(24, -160, 160, 64), rotationAbout([0, 0, 0], X, 1.1)), 95, 0, 0),
  },
];

const POSES = 60;
/** A steered, rising wheel seen from its suspension. */
const poseOf = (k: number): Rigid =>
  compose(
    translation([0, 2 * Math.sin(k / 9), 6 * Math.sin(k / 7)]),
    rotationAbout([0, -120, 0], Z, 0.12 * Math.sin(k / 11)),
  );

function geometryOf({ positions, triangles }: Mesh): BufferGeometry {
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(new Float32Array(positions), 3));
  geometry.setIndex(new BufferAttribute(triangles.slice(), 1));
  return geometry;
}

const ms = (work: () => void): number => {
  const start = performance.now();
  work();
  return performance.now() - start;
};

function best(times: number, work: () => void): number {
  let least = Number.POSITIVE_INFINITY;
  for (let k = 0; k < times; k++) least = Math.min(least, ms(work));
  return least;
}

for (const { name, a, b } of CASES) {
  const build = ms(() => prepareBody(a, { chordErrorMm: 0 }));
  const [bodyA, bodyB] = [a, b].map((mesh) => prepareBody(mesh, { chordErrorMm: 0 }));
  const query = new PairQuery(bodyA, bodyB);
  const kinds = new Map<string, number>();
  let nearest = Number.POSITIVE_INFINITY;
  const run = (hint: boolean, limitMm: number) => () => {
    for (let k = 0; k < POSES; k++) {
      if (!hint) query.reset();
      query.run(poseOf(k), limitMm);
    }
  };
  for (let k = 0; k < POSES; k++) {
    query.run(poseOf(k), Number.POSITIVE_INFINITY);
    kinds.set(query.kind, (kinds.get(query.kind) ?? 0) + 1);
    nearest = Math.min(nearest, query.distanceMm);
  }
  const cold = best(3, run(false, Number.POSITIVE_INFINITY)) / POSES;
  const warm = best(3, run(true, Number.POSITIVE_INFINITY)) / POSES;
  const limited = best(3, run(true, 60)) / POSES;

  const geometryA = geometryOf(a);
  const geometryB = geometryOf(b);
  const bvh = new MeshBVH(geometryA, { strategy: SAH });
  (geometryB as BufferGeometry & { boundsTree?: MeshBVH }).boundsTree = new MeshBVH(geometryB, {
    strategy: SAH,
  });
  const sample = [0, 20, 40];
  const other =
    ms(() => {
      for (const k of sample) {
        const t = new Matrix4().fromArray(toMatrix4(poseOf(k))).transpose();
        bvh.closestPointToGeometry(geometryB, t);
      }
    }) / sample.length;
  const f = (x: number) => x.toFixed(3).padStart(8);
  console.log(`${name}: ${a.triangles.length / 3} and ${b.triangles.length / 3} triangles`);
  console.log(
    `  kinds ${JSON.stringify([...kinds])}, least ${nearest.toFixed(3)} mm, made ready in ${f(build)} ms`,
  );
  console.log(`  closestPointToGeometry  ${f(other)} ms`);
  console.log(`  no hint, no limit       ${f(cold)} ms   ${(other / cold).toFixed(0)} times faster`);
  console.log(`  hint, no limit          ${f(warm)} ms   ${(other / warm).toFixed(0)} times faster`);
  console.log(`  hint, limit 60 mm       ${f(limited)} ms`);
}
