import type { Object3D } from 'three';
import { Raycaster, Vector3 } from 'three';
import type { Vec3 } from '../../math/vec.ts';

/** A ray starts this far off the surface that its point lies on, mm: beyond rounding, far within any gap that matters. */
const OFF_SURFACE_MM = 0.5;

/** How many of the points cannot be seen by an eye far away toward `eye`, because one of `bodies` stands before them. */
export function hiddenFrom(points: readonly Vec3[], eye: Vec3, bodies: readonly Object3D[]): number {
  const ray = new Raycaster();
  const direction = new Vector3(...eye);
  return points.filter((point) => {
    ray.set(new Vector3(...point).addScaledVector(direction, OFF_SURFACE_MM), direction);
    return ray.intersectObjects([...bodies], true).length > 0;
  }).length;
}
