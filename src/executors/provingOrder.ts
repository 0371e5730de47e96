import type { SweepResult } from '../sweep/result.ts';
import type { Built } from '../sweep/setUp.ts';

/**
 * The pairs of a sweep in the order of their proofs, the longest proofs first: pairs of many triangles that are close
 * to each other at most steps. Workers that share a proof then end at nearly the same time.
 */
export function provingOrder({ pairs, solids }: Built, { clearanceMm }: SweepResult): number[] {
  const steps = clearanceMm.length / pairs.length;
  const effort = pairs.map(({ a, b, moves }, p) => {
    if (!moves) return 0;
    let near = 0;
    // A clearance below 1 mm takes no longer than 1 mm; a step that was not measured (NaN) adds nothing.
    for (let at = p * steps; at < (p + 1) * steps; at++) near += 1 / Math.max(1, clearanceMm[at]) || 0;
    return near * Math.sqrt(solids[a].mesh.triangles.length * solids[b].mesh.triangles.length);
  });
  return pairs.map((_, p) => p).sort((p, q) => effort[q] - effort[p] || p - q);
}
