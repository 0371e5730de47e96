import type { SweepResult } from '../sweep/result.ts';
import type { Built } from '../sweep/setUp.ts';

/**
 * The pairs of a sweep, those first whose proof takes long: pairs of many triangles that were measured at most of the
 * steps. Workers that share a proof then end at nearly the same time.
 */
export function provingOrder({ pairs, solids }: Built, { clearanceMm }: SweepResult): number[] {
  const steps = clearanceMm.length / pairs.length;
  const effort = pairs.map(({ a, b, moves }, p) => {
    if (!moves) return 0;
    let near = 0;
    for (let at = p * steps; at < (p + 1) * steps; at++)
      near += Number(clearanceMm[at] < Number.POSITIVE_INFINITY);
    return near * Math.sqrt(solids[a].mesh.triangles.length * solids[b].mesh.triangles.length);
  });
  return pairs.map((_, p) => p).sort((p, q) => effort[q] - effort[p] || p - q);
}
