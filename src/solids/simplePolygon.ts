export type Point2 = readonly [number, number];

/** Sides nearer than this count as touching, mm; below any dimension of a part. */
const TOUCH_MM = 1e-4;

/**
 * A sentence that says why a closed outline is no simple polygon, with its corners counted from 0; undefined if it is one.
 * Two sides may meet only at the corner that they share.
 */
export function outlineFault(corners: readonly Point2[]): string | undefined {
  const n = corners.length;
  const at = (i: number) => corners[i % n];
  for (let i = 0; i < n; i++) {
    if (gap(at(i), at(i + 1)) < TOUCH_MM) {
      return `outline[${i}] and outline[${(i + 1) % n}] are the same point: remove one`;
    }
  }
  for (let i = 0; i < n; i++) {
    if (
      pointToSide(at(i + 2), at(i), at(i + 1)) < TOUCH_MM ||
      pointToSide(at(i), at(i + 1), at(i + 2)) < TOUCH_MM
    ) {
      return `the outline runs back on itself at outline[${(i + 1) % n}]`;
    }
    for (let k = i + 2; k < n; k++) {
      if ((k + 1) % n === i) continue;
      if (sidesTouch(at(i), at(i + 1), at(k), at(k + 1))) {
        return (
          `the side from outline[${i}] to outline[${i + 1}] meets the side from outline[${k}] to ` +
          `outline[${(k + 1) % n}]: an outline must not cross or touch itself`
        );
      }
    }
  }
  return undefined;
}

const gap = (a: Point2, b: Point2) => Math.hypot(a[0] - b[0], a[1] - b[1]);

/** Distance from a point to the side from `a` to `b`; `a` and `b` may be equal. */
export function pointToSide(p: Point2, a: Point2, b: Point2): number {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const lengthSq = dx * dx + dy * dy;
  const along = lengthSq > 0 ? ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / lengthSq : 0;
  const t = Math.min(1, Math.max(0, along));
  return gap(p, [a[0] + t * dx, a[1] + t * dy]);
}

function sidesTouch(a: Point2, b: Point2, c: Point2, d: Point2): boolean {
  const side = (p: Point2, q: Point2, r: Point2) =>
    Math.sign((q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0]));
  if (side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0) return true;
  const nearest = Math.min(
    pointToSide(a, c, d),
    pointToSide(b, c, d),
    pointToSide(c, a, b),
    pointToSide(d, a, b),
  );
  return nearest < TOUCH_MM;
}
