import { endsOf, type Facets } from './facets.ts';

/** A chain of vertices along sharp edges. */
export interface Chain {
  /** Vertex indices; a closed chain does not repeat its first. */
  vertices: number[];
  /** For each vertex, the two triangles at the edge to the next one; an open chain has none for its last vertex. */
  beside: (readonly [number, number])[];
  closed: boolean;
}

/**
 * Joins edges into chains. A chain ends at vertices where the number of edges is not 2, or is closed. `corners`: each edge
 * once, as the triangle corner where it starts.
 */
export function chainsOf({ mesh, beside }: Facets, corners: Iterable<number>): Chain[] {
  const vertices = mesh.positions.length / 3;
  const edge = (a: number, b: number) => Math.min(a, b) * vertices + Math.max(a, b);
  const at = new Map<number, number[]>();
  const sides = new Map<number, readonly [number, number]>();
  const note = (from: number, to: number) => {
    const known = at.get(from);
    if (known === undefined) at.set(from, [to]);
    else known.push(to);
  };
  for (const i of corners) {
    const [from, to] = endsOf(mesh, i);
    note(from, to);
    note(to, from);
    sides.set(edge(from, to), [Math.floor(i / 3), beside[i]]);
  }
  const walked = new Set<number>();
  const walk = (from: number, next: number): Chain => {
    const line = [from];
    const sidesOf: (readonly [number, number])[] = [];
    let [before, here] = [from, next];
    for (;;) {
      const key = edge(before, here);
      walked.add(key);
      sidesOf.push(sides.get(key) as readonly [number, number]);
      if (here === from) return { vertices: line, beside: sidesOf, closed: true };
      line.push(here);
      const others = at.get(here) ?? [];
      if (others.length !== 2) return { vertices: line, beside: sidesOf, closed: false };
      const onward = others[0] === before ? others[1] : others[0];
      [before, here] = [here, onward];
    }
  };
  const chains: Chain[] = [];
  const from = (accepts: (ends: number) => boolean) => {
    for (const [vertex, others] of at) {
      if (!accepts(others.length)) continue;
      for (const other of others) if (!walked.has(edge(vertex, other))) chains.push(walk(vertex, other));
    }
  };
  from((ends) => ends !== 2);
  from((ends) => ends === 2);
  return chains;
}
