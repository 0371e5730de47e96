import { BufferAttribute, BufferGeometry, DoubleSide, Ray, Vector3 } from 'three';
import { MeshBVH } from 'three-mesh-bvh';
import type { Vec3 } from '../../../math/vec.ts';
import type { Feature } from '../../../solids/features/feature.ts';
import { featuresOf } from '../../../solids/features/featuresOf.ts';
import type { Mesh } from '../../../solids/solid.ts';

/** A part prepared for picking. */
export interface ReadBody {
  features: readonly Feature[];
  /** First hit of a ray on its surface; undefined for a miss. */
  meet(origin: Vec3, direction: Vec3): Meeting | undefined;
}

export interface Meeting {
  alongMm: number;
  /** The face or cylinder that was hit, if any. */
  face: Feature | undefined;
  /** The ray leaves the metal at the hit: it started inside. */
  fromInside: boolean;
}

/** Finds the features of a mesh. `errorMm`: largest distance of its surface from the true part's. */
export function readBody(mesh: Mesh, errorMm: number): ReadBody {
  const features = featuresOf(mesh, errorMm);
  const faceAt = new Map<number, Feature>();
  for (const feature of features) {
    if (feature.kind === 'flat' || feature.kind === 'cylinder')
      for (const t of feature.triangles) faceAt.set(t, feature);
  }
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(Float32Array.from(mesh.positions), 3));
  geometry.setIndex(new BufferAttribute(mesh.triangles, 1));
  // Indirect: the tree keeps the order of the triangles.
  const tree = new MeshBVH(geometry, { indirect: true });
  const ray = new Ray();
  return {
    features,
    meet(origin, direction) {
      ray.set(new Vector3(...origin), new Vector3(...direction));
      const hit = tree.raycastFirst(ray, DoubleSide);
      if (hit === null || hit.faceIndex === undefined || hit.faceIndex === null) return undefined;
      const fromInside = (hit.face?.normal.dot(ray.direction) ?? 0) > 0;
      return { alongMm: hit.distance, face: faceAt.get(hit.faceIndex), fromInside };
    },
  };
}
