import { useEffect, useState } from 'react';
import { BufferAttribute, BufferGeometry, Sphere, Vector3 } from 'three';
import type { Solid } from '../../solids/solid.ts';
import { pause } from '../pause.ts';
import { drawnMesh } from './drawing.ts';
import type { DrawnMesh } from './drawnMesh.ts';
import { panelsMade } from './moments.ts';

export interface PartGeometry {
  faces: BufferGeometry;
  edges: BufferGeometry;
}

/** Solids with their geometries, ready to draw. */
export interface Drawable {
  solids: readonly Solid[];
  geometries: ReadonlyMap<Solid, PartGeometry>;
}

const NONE: Drawable = { solids: [], geometries: new Map() };

/**
 * Solids with their geometries, once they are ready to draw; until then those that were before them, none at first. Whoever
 * makes one disposes of it: the renderer does not, on a change.
 */
export function useGeometries(solids: readonly Solid[]): Drawable {
  const [made, setMade] = useState(NONE);
  const [failure, setFailure] = useState<Error>();
  useEffect(() => {
    let wanted = true;
    const make = async () => {
      // The first panels are not held up. What is copied to the worker takes tasks of its own.
      await panelsMade.come();
      await pause(0);
      if (!wanted) return;
      const drawn = await Promise.all(solids.map(({ mesh, shown }) => drawnMesh(shown ?? mesh)));
      if (!wanted) return;
      setMade({ solids, geometries: new Map(solids.map((solid, i) => [solid, geometryOf(drawn[i])])) });
    };
    make().catch(setFailure);
    return () => {
      wanted = false;
    };
  }, [solids]);
  useEffect(
    () => () => {
      for (const { faces, edges } of made.geometries.values()) {
        faces.dispose();
        edges.dispose();
      }
    },
    [made],
  );
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
  // The renderer asks for it of all that it draws, and would look at every point for it.
  const [x, y, z, radius] = drawn.sphere;
  for (const geometry of [faces, edges]) geometry.boundingSphere = new Sphere(new Vector3(x, y, z), radius);
  return { faces, edges };
}
