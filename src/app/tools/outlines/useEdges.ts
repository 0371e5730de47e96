import { useEffect, useState } from 'react';
import { edgesOf, type MeshEdges } from '../../../solids/contour.ts';
import type { Solid } from '../../../solids/solid.ts';
import { pause } from '../../kit/pause.ts';

const NONE: ReadonlyMap<Solid, MeshEdges> = new Map();

/** The edges of each drawn mesh, once all are found. One task per solid, so that the page stays responsive. */
export function useEdges(solids: readonly Solid[]): ReadonlyMap<Solid, MeshEdges> {
  const [found, setFound] = useState(NONE);
  useEffect(() => {
    let active = true;
    const find = async () => {
      const edges = new Map<Solid, MeshEdges>();
      for (const solid of solids) {
        await pause(0);
        if (!active) return;
        edges.set(solid, edgesOf(solid.shown ?? solid.mesh));
      }
      setFound(edges);
    };
    void find();
    return () => {
      active = false;
    };
  }, [solids]);
  return found;
}
