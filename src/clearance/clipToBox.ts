/**
 * x y z of each corner of the clipped polygon. A triangle and six cuts by each of two boxes give at most 15 corners.
 */
export const polygon = new Float64Array(45);
const before = new Float64Array(45);

/**
 * Clips the convex polygon of the first `count` corners in `polygon`, in place, to the oriented box at `box[0]`
 * (centre, three unit axes, half extents). Returns the number of remaining corners; 0 if no part of the polygon is in
 * the box.
 */
export function clipToBox(count: number, box: Float64Array, slackMm: number): number {
  let left = count;
  for (let axis = 0; axis < 3 && left > 0; axis++) {
    const a = 3 + 3 * axis;
    const [x, y, z] = [box[a], box[a + 1], box[a + 2]];
    const centre = x * box[0] + y * box[1] + z * box[2];
    const half = box[12 + axis] + slackMm;
    left = clip(left, x, y, z, centre + half);
    left = clip(left, -x, -y, -z, half - centre);
  }
  return left;
}

/** Keeps the part of the polygon that is no further than `limit` along (x, y, z). */
function clip(count: number, x: number, y: number, z: number, limit: number): number {
  before.set(polygon);
  let kept = 0;
  for (let c = 0; c < count; c++) {
    const from = 3 * c;
    const to = 3 * ((c + 1) % count);
    const over = x * before[from] + y * before[from + 1] + z * before[from + 2] - limit;
    const next = x * before[to] + y * before[to + 1] + z * before[to + 2] - limit;
    if (over <= 0) {
      for (let k = 0; k < 3; k++) polygon[3 * kept + k] = before[from + k];
      kept++;
    }
    if (over <= 0 !== next <= 0) {
      const s = over / (over - next);
      for (let k = 0; k < 3; k++)
        polygon[3 * kept + k] = before[from + k] + s * (before[to + k] - before[from + k]);
      kept++;
    }
  }
  return kept;
}
