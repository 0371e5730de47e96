import { BufferAttribute, BufferGeometry, DoubleSide, Ray, Vector3 } from 'three';
import { MeshBVH } from 'three-mesh-bvh';
import type { Vec3 } from '../../math/vec.ts';
import type { Feature } from '../../solids/features/feature.ts';
import { featuresOf } from '../../solids/features/featuresOf.ts';
import type { Mesh } from '../../solids/solid.ts';

/** A part made ready to be pointed at. */
export interface ReadBody {
  features: readonly Feature[];
  /** Where its surface is first met by a ray; undefined where it passes by. */
  meet(origin: Vec3, direction: Vec3): Meeting | undefined;
}

export interface Meeting {
  alongMm: number;
  /** The face or cylinder there, if it is of one. */
  face: Feature | undefined;
  /** The ray comes out of the metal there: it began inside. */
  fromInside: boolean;
}

/** Finds the features of a mesh, of which the surface is nowhere further than `errorMm` from that of the true part. */
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
  // Indirect: triangles keep their numbers.
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
