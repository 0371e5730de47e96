import { useEffect, useState } from 'react';
import { BufferAttribute, BufferGeometry, Sphere, Vector3 } from 'three';
import type { Solid } from '../../solids/solid.ts';
import { pause } from '../kit/pause.ts';
import { panelsShown } from '../kit/startupSignals.ts';
import { drawnMesh } from '../workers/drawing/drawing.ts';
import type { DrawnMesh } from '../workers/drawing/drawnMesh.ts';

export interface PartGeometry {
  faces: BufferGeometry;
  edges: BufferGeometry;
}

/** Solids with their geometries, ready to draw. */
interface Drawable {
  solids: readonly Solid[];
  geometries: ReadonlyMap<Solid, PartGeometry>;
}

const EMPTY: Drawable = { solids: [], geometries: new Map() };

/**
 * Solids with their geometries. Until those of new solids are ready, returns the previous ones, at first none. Disposes of
 * replaced geometries, because the renderer does not.
 */
export function useGeometries(solids: readonly Solid[]): Drawable {
  const [drawable, setDrawable] = useState(EMPTY);
  const [failure, setFailure] = useState<Error>();
  useEffect(() => {
    let active = true;
    const make = async () => {
      // Waits for the first panels, so that they are not delayed. Copying to the worker runs in separate tasks.
      await panelsShown.wait();
      await pause(0);
      if (!active) return;
      const drawn = await Promise.all(solids.map(({ mesh, shown }) => drawnMesh(shown ?? mesh)));
      if (!active) return;
      setDrawable({ solids, geometries: new Map(solids.map((solid, i) => [solid, geometryOf(drawn[i])])) });
    };
    make().catch(setFailure);
    return () => {
      active = false;
    };
  }, [solids]);
  useEffect(
    () => () => {
      for (const { faces, edges } of drawable.geometries.values()) {
        faces.dispose();
        edges.dispose();
      }
    },
    [drawable],
  );
  if (failure !== undefined) throw failure;
  return drawable;
}

function geometryOf(drawn: DrawnMesh): PartGeometry {
  const faces = new BufferGeometry();
  faces.setAttribute('position', new BufferAttribute(drawn.positions, 3));
  faces.setAttribute('normal', new BufferAttribute(drawn.normals, 3));
  faces.setIndex(new BufferAttribute(drawn.triangles, 1));
  const edges = new BufferGeometry();
  edges.setAttribute('position', new BufferAttribute(drawn.edges, 3));
  // The renderer needs the sphere of everything it draws, and would visit every point to compute it.
  const [x, y, z, radius] = drawn.sphere;
  for (const geometry of [faces, edges]) geometry.boundingSphere = new Sphere(new Vector3(x, y, z), radius);
  return { faces, edges };
}
