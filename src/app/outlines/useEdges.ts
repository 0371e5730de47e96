import { useEffect, useState } from 'react';
import type { Solid } from '../../solids/solid.ts';
import { pause } from '../pause.ts';
import { edgesOf, type MeshEdges } from './contour.ts';

const NONE: ReadonlyMap<Solid, MeshEdges> = new Map();

/** The edges of what each solid looks like, once they are found: a task each, so that a press of a key can come between. */
export function useEdges(solids: readonly Solid[]): ReadonlyMap<Solid, MeshEdges> {
  const [found, setFound] = useState(NONE);
  useEffect(() => {
    let wanted = true;
    const find = async () => {
      const edges = new Map<Solid, MeshEdges>();
      for (const solid of solids) {
        await pause(0);
        if (!wanted) return;
        edges.set(solid, edgesOf(solid.shown ?? solid.mesh));
      }
      setFound(edges);
    };
    void find();
    return () => {
      wanted = false;
    };
  }, [solids]);
  return found;
}
