import { endsOf, type Facets, foldCos } from './facets.ts';
import { flatRegions } from './flatRegions.ts';

/** Facets with a smaller fold may belong to one round surface: the coarsest circle of any useful tolerance has 12 sides. */
const ROUND_FOLD_COS = Math.cos((31 * Math.PI) / 180);
/** Greatest ratio between areas of facets of one round surface. */
const ALIKE = 3;
/** Least ratio of a flat face's area to that of a facet of an adjoining round surface. */
const MUCH_LARGER = 20;
/** Least number of facets in a round surface; fewer are a fold. */
const LEAST_FACETS = 4;

export interface Regions {
  /** Region of each triangle. */
  of: Int32Array;
  /** For each region: 1 if it is a facet of a round surface, 0 if it is a flat face. */
  isFacet: Uint8Array;
  areaMm2: Float64Array;
  /** Whether an edge between two triangles is an edge of the part: a sharp fold, or between flat faces. */
  isSharp(s: number, t: number): boolean;
  /** Groups of facets connected by round folds: lists of regions. */
  roundGroups: number[][];
}

/** Flat regions of a mesh, classified as flat faces or facets of round surfaces. */
export function regionsOf(facets: Facets): Regions {
  const { mesh, weight, beside } = facets;
  const { positions: p } = mesh;
  const { of, count } = flatRegions(facets);
  const areaMm2 = new Float64Array(count);
  weight.forEach((w, t) => {
    areaMm2[of[t]] += w / 2;
  });
  const roundMm = new Float64Array(count);
  const aroundMm = new Float64Array(count);
  const roundly: Set<number>[] = Array.from({ length: count }, () => new Set());
  for (let i = 0; i < beside.length; i++) {
    const [s, t] = [Math.floor(i / 3), beside[i]];
    if (t < 0 || of[s] === of[t]) continue;
    const [a, b] = endsOf(mesh, i).map((v) => 3 * v);
    const long = Math.hypot(p[a] - p[b], p[a + 1] - p[b + 1], p[a + 2] - p[b + 2]);
    aroundMm[of[s]] += long;
    if (foldCos(facets, s, t) < ROUND_FOLD_COS) continue;
    roundMm[of[s]] += long;
    roundly[of[s]].add(of[t]);
  }
  const isFacet = new Uint8Array(count);
  const alike = (r: number, other: number) =>
    areaMm2[r] < ALIKE * areaMm2[other] && areaMm2[other] < ALIKE * areaMm2[r];
  const queue: number[] = [];
  for (let r = 0; r < count; r++) {
    const others = [...roundly[r]];
    const largest = others.reduce((most, other) => Math.max(most, areaMm2[other]), 0);
    const isAmong = others.filter((other) => alike(r, other)).length >= 2;
    const joinsRound = roundMm[r] > aroundMm[r] / 2 && areaMm2[r] < MUCH_LARGER * largest;
    if (!isAmong && !joinsRound) continue;
    isFacet[r] = 1;
    queue.push(r);
  }
  // The last facet of an arc has only one similar neighbour.
  for (let q = 0; q < queue.length; q++) {
    for (const other of roundly[queue[q]]) {
      if (isFacet[other] === 1 || !alike(queue[q], other)) continue;
      isFacet[other] = 1;
      queue.push(other);
    }
  }
  const roundGroups: number[][] = [];
  const visited = new Uint8Array(count);
  for (let r = 0; r < count; r++) {
    if (isFacet[r] === 0 || visited[r] === 1) continue;
    const group = [r];
    visited[r] = 1;
    for (let g = 0; g < group.length; g++) {
      for (const other of roundly[group[g]]) {
        if (isFacet[other] === 0 || visited[other] === 1) continue;
        visited[other] = 1;
        group.push(other);
      }
    }
    if (group.length >= LEAST_FACETS) roundGroups.push(group);
    else for (const one of group) isFacet[one] = 0;
  }
  return {
    of,
    isFacet,
    areaMm2,
    isSharp: (s, t) =>
      of[s] !== of[t] &&
      (foldCos(facets, s, t) < ROUND_FOLD_COS || (isFacet[of[s]] === 0 && isFacet[of[t]] === 0)),
    roundGroups,
  };
}
