import { add, cross, length, normalize, scale, sub, type Vec3 } from '../math/vec.ts';

/** Mean of the corners. */
export const outlineCentre = (outline: readonly Vec3[]): Vec3 =>
  scale(outline.reduce<Vec3>(add, [0, 0, 0]), 1 / outline.length);

/** Unit normal on the side from which the corners run anticlockwise (Newell's sum of the sides' cross products). */
export function outlineNormal(outline: readonly Vec3[], centre: Vec3): Vec3 {
  let twiceArea: Vec3 = [0, 0, 0];
  outline.forEach((corner, i) => {
    const next = outline[(i + 1) % outline.length];
    twiceArea = add(twiceArea, cross(sub(corner, centre), sub(next, centre)));
  });
  const perimeter = outline.reduce(
    (sum, corner, i) => sum + length(sub(outline[(i + 1) % outline.length], corner)),
    0,
  );
  // Below this, the area comes from rounding errors of a straight line.
  if (length(twiceArea) <= 1e-9 * perimeter ** 2) {
    throw new Error('the outline encloses no area: its corners lie in one line, or it crosses itself');
  }
  return normalize(twiceArea);
}
