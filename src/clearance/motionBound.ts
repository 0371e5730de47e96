import type { Rigid } from '../math/rigid.ts';

/**
 * Greatest displacement of any point of a box in the frame of a, when `aFromB` goes from one pose to the other, mm.
 * `box`: least x y z, greatest x y z, in the frame of b. The displacement is an affine function of the point, so its
 * length is greatest at a corner. Exact for the two poses; does not cover the path between them. An empty box (least
 * above greatest) gives 0.
 */
export function maxDisplacementMm(box: Float64Array, from: Rigid, to: Rigid): number {
  if (!(box[0] <= box[3])) return 0;
  let mostSq = 0;
  for (let corner = 0; corner < 8; corner++) {
    const x = box[corner & 1 ? 3 : 0];
    const y = box[corner & 2 ? 4 : 1];
    const z = box[corner & 4 ? 5 : 2];
    let sq = 0;
    for (let r = 0; r < 12; r += 4) {
      const d =
        (to[r] - from[r]) * x +
        (to[r + 1] - from[r + 1]) * y +
        (to[r + 2] - from[r + 2]) * z +
        (to[r + 3] - from[r + 3]);
      sq += d * d;
    }
    mostSq = Math.max(mostSq, sq);
  }
  return Math.sqrt(mostSq);
}
