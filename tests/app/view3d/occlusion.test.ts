import {
  BufferAttribute,
  BufferGeometry,
  DoubleSide,
  MeshBasicMaterial,
  Raycaster,
  Mesh as ThreeMesh,
  Vector3,
} from 'three';
import { describe, expect, it } from 'vitest';
import { occludersOf, squareOnBoth } from '../../../src/app/view3d/occlusion.ts';
import { applyPoint, identity, translation } from '../../../src/math/rigid.ts';
import { addScaled, cross, dot, normalize, perpendicular, scale, type Vec3 } from '../../../src/math/vec.ts';
import type { Mesh } from '../../../src/solids/solid.ts';
import { randomRigid } from '../../oracles/bruteForce.ts';
import { between, mulberry32 } from '../../oracles/random.ts';
import { box, moved, rod, sphere, torus, withoutTriangle } from '../../oracles/shapes.ts';

const SEED = 11;
const random = mulberry32(SEED);
const vector = (reach: number): Vec3 => [
  between(random, -reach, reach),
  between(random, -reach, reach),
  between(random, -reach, reach),
];

/** Whether a ray from half a millimetre off the point meets the mesh: three's raycaster, triangle by triangle. */
function isHidden(point: Vec3, eye: Vec3, { positions, triangles }: Mesh): boolean {
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(positions, 3));
  geometry.setIndex(new BufferAttribute(triangles, 1));
  const ray = new Raycaster(new Vector3(...point), new Vector3(...eye), 0.5);
  return ray.intersectObject(new ThreeMesh(geometry, new MeshBasicMaterial({ side: DoubleSide }))).length > 0;
}

describe('occluders of a point', () => {
  it('are the bodies that a ray cast at every triangle hits', () => {
    const shapes = [box(60, 40, 25), sphere(30, 24), torus(50, 12, 32, 12), rod(20, -40, 40, 24)];
    const counts = { hidden: 0, visible: 0 };
    for (let trial = 0; trial < 60; trial++) {
      const bodies = shapes.map((mesh) => ({ mesh, vehicleFromMesh: randomRigid(random, 60) }));
      const point = vector(60);
      const axis = normalize(vector(1));
      const hiders = occludersOf(point, axis, bodies);
      for (let k = 0; k < 8; k++) {
        const turn = between(random, 0, 2 * Math.PI);
        const x = perpendicular(axis);
        const eye = addScaled(scale(x, Math.cos(turn)), cross(axis, x), Math.sin(turn));
        const expected = bodies.map(({ mesh, vehicleFromMesh }) =>
          isHidden(point, eye, moved(mesh, vehicleFromMesh)),
        );
        expect(hiders(eye), `trial ${trial}, eye ${k} of seed ${SEED}`).toEqual(expected);
        for (const hidden of expected) counts[hidden ? 'hidden' : 'visible'] += 1;
      }
    }
    expect(counts.hidden).toBeGreaterThan(100);
    expect(counts.visible).toBeGreaterThan(100);
  });

  it('never include a mesh that is open at the cut', () => {
    const open = { mesh: withoutTriangle(sphere(30, 8), 40), vehicleFromMesh: identity() };
    const hiders = Array.from({ length: 50 }, () => occludersOf(vector(20), normalize(vector(1)), [open]));
    expect(hiders.map((hides) => hides([1, 0, 0]).length)).toEqual(hiders.map(() => 1));
  });
});

describe('square on a gap', () => {
  // Two plates across z, 4 mm apart.
  const plate = { mesh: box(100, 100, 10), vehicleFromMesh: translation([0, 0, -5]) };
  const upper = { mesh: box(100, 100, 10), vehicleFromMesh: translation([0, 0, 9]) };
  const a: Vec3 = [0, 0, 0];
  const b: Vec3 = [0, 0, 4];
  const preferred = normalize([1, 0.2, 0.5]);

  it('looks between two flat faces, which hide nothing', () => {
    const { eye, hiding } = squareOnBoth(a, b, preferred, [plate, upper]);
    expect(hiding).toEqual([false, false]);
    expect(dot(eye, normalize([1, 0.2, 0]))).toBeCloseTo(1, 12);
  });

  it('turns past a wall', () => {
    const wall = { mesh: box(10, 300, 60), vehicleFromMesh: translation([30, 0, 0]) };
    const { eye, hiding } = squareOnBoth(a, b, preferred, [plate, wall]);
    expect(hiding).toEqual([false, false]);
    // Past the end of the wall, 150 mm to the side, and at most one step further.
    const turnDeg = (Math.atan2(eye[1], eye[0]) * 180) / Math.PI;
    expect(turnDeg).toBeGreaterThan((Math.atan2(150, 35) * 180) / Math.PI);
    expect(turnDeg).toBeLessThan((Math.atan2(150, 35) * 180) / Math.PI + 10);
  });

  it('names the body that hides an end from every direction', () => {
    const tube = { mesh: torus(60, 25, 48, 24), vehicleFromMesh: translation([0, 0, 2]) };
    const { hiding } = squareOnBoth(a, b, preferred, [plate, tube]);
    expect(hiding).toEqual([false, true]);
  });

  it('names both of two bodies that overlap, as each hides the end of the other', () => {
    const one = { mesh: sphere(30, 24), vehicleFromMesh: identity() };
    const other = { mesh: sphere(30, 24), vehicleFromMesh: translation([20, 0, 0]) };
    const ends = [
      applyPoint(one.vehicleFromMesh, [25, 1, 1]),
      applyPoint(other.vehicleFromMesh, [-25, 1, 1]),
    ];
    expect(squareOnBoth(ends[0], ends[1], preferred, [one, other]).hiding).toEqual([true, true]);
  });
});
