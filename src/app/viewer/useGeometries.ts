import { useEffect, useState } from 'react';
import { BufferAttribute, BufferGeometry } from 'three';
import type { Solid } from '../../solids/solid.ts';
import { drawnMeshes } from './drawing.ts';
import type { DrawnMesh } from './drawnMesh.ts';

export interface PartGeometry {
  faces: BufferGeometry;
  edges: BufferGeometry;
}

const NONE: ReadonlyMap<Solid, PartGeometry> = new Map();

/**
 * Geometries of solids, once they are ready to draw; none before. Whoever makes one disposes of it: the renderer does not,
 * on a change.
 */
export function useGeometries(solids: readonly Solid[]): ReadonlyMap<Solid, PartGeometry> {
  const [made, setMade] = useState(NONE);
  const [failure, setFailure] = useState<Error>();
  useEffect(() => {
    let wanted = true;
    let own = NONE;
    drawnMeshes(solids.map(({ mesh, shown }) => shown ?? mesh)).then((drawn) => {
      if (!wanted) return;
      own = new Map(solids.map((solid, i) => [solid, geometryOf(drawn[i])]));
      setMade(own);
    }, setFailure);
    return () => {
      wanted = false;
      setMade(NONE);
      for (const { faces, edges } of own.values()) {
        faces.dispose();
        edges.dispose();
      }
    };
  }, [solids]);
  if (failure !== undefined) throw failure;
  return made;
}

function geometryOf(drawn: DrawnMesh): PartGeometry {
  const faces = new BufferGeometry();
  faces.setAttribute('position', new BufferAttribute(drawn.positions, 3));
  faces.setAttribute('normal', new BufferAttribute(drawn.normals, 3));
  faces.setIndex(new BufferAttribute(drawn.triangles, 1));
  const edges = new BufferGeometry();
  edges.setAttribute('position', new BufferAttribute(drawn.edges, 3));
  return { faces, edges };
}
