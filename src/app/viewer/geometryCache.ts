import { BufferAttribute, BufferGeometry } from 'three';
import type { Solid } from '../../solids/solid.ts';
import { drawnMesh } from './drawnMesh.ts';

export interface PartGeometry {
  faces: BufferGeometry;
  edges: BufferGeometry;
}

/** The geometries of one corner's solids. Whoever makes one disposes of it: the renderer does not, on a change. */
export class GeometryCache {
  private readonly made = new Map<Solid, PartGeometry>();

  of(solid: Solid): PartGeometry {
    const known = this.made.get(solid);
    if (known !== undefined) return known;
    const drawn = drawnMesh(solid.shown ?? solid.mesh);
    const faces = new BufferGeometry();
    faces.setAttribute('position', new BufferAttribute(drawn.positions, 3));
    faces.setAttribute('normal', new BufferAttribute(drawn.normals, 3));
    const edges = new BufferGeometry();
    edges.setAttribute('position', new BufferAttribute(drawn.edges, 3));
    const geometry = { faces, edges };
    this.made.set(solid, geometry);
    return geometry;
  }

  dispose(): void {
    for (const { faces, edges } of this.made.values()) {
      faces.dispose();
      edges.dispose();
    }
    this.made.clear();
  }
}
