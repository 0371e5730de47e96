import { applyPoint, invert, type Rigid } from '../../../src/math/rigid.ts';
import type { Vec3 } from '../../../src/math/vec.ts';
import type { Mesh } from '../../../src/solids/solid.ts';

/**
 * Upper bound on the distance of points from bodies of revolution, from the edges of their meshes: each edge is a segment in
 * radius and y of the wheel's frame. Independent of pieces, cells and bounds.
 */
export class ProfileDistance {
  private readonly segments: readonly (readonly [r: number, y: number, toR: number, toY: number])[];
  private readonly wheelFromVehicle: Rigid;

  constructor(meshes: readonly Mesh[], vehicleFromWheel: Rigid) {
    this.wheelFromVehicle = invert(vehicleFromWheel);
    const found = new Map<string, readonly [number, number, number, number]>();
    for (const { positions, triangles } of meshes) {
      const profile = (vertex: number): [number, number] => {
        const at: Vec3 = [positions[3 * vertex], positions[3 * vertex + 1], positions[3 * vertex + 2]];
        const [x, y, z] = applyPoint(this.wheelFromVehicle, at);
        return [Math.hypot(x, z), y];
      };
      for (let i = 0; i < triangles.length; i++) {
        const next = i % 3 === 2 ? i - 2 : i + 1;
        const segment = [...profile(triangles[i]), ...profile(triangles[next])] as const;
        found.set(segment.map((value) => value.toFixed(1)).join(' '), segment);
      }
    }
    this.segments = [...found.values()];
  }

  /** At a pose of the wheel's carrier, mm. */
  from(point: Vec3, carrier: Rigid): number {
    const [x, y, z] = applyPoint(this.wheelFromVehicle, applyPoint(invert(carrier), point));
    const r = Math.hypot(x, z);
    let least = Number.POSITIVE_INFINITY;
    for (const [fromR, fromY, toR, toY] of this.segments) {
      const [dr, dy] = [toR - fromR, toY - fromY];
      const lengthSq = dr * dr + dy * dy;
      const along = lengthSq === 0 ? 0 : ((r - fromR) * dr + (y - fromY) * dy) / lengthSq;
      const t = Math.min(Math.max(along, 0), 1);
      least = Math.min(least, Math.hypot(r - fromR - t * dr, y - fromY - t * dy));
    }
    return least;
  }
}
