/** Corners of the last polygon, x y z each: a triangle and six cuts make nine at most. */
export const polygon = new Float64Array(27);
const before = new Float64Array(27);

/**
 * The part of a triangle (nine coordinates) that lies in the box of centre and half extents `box[i..i+5]`: how many
 * corners it has, which are left in `polygon`; 0 where no part of it does.
 */
export function clipToBox(triangle: Float64Array, box: Float64Array, i: number): number {
  let count = 3;
  for (let k = 0; k < 9; k++) polygon[k] = triangle[k];
  for (let axis = 0; axis < 3 && count > 0; axis++) {
    count = clip(count, axis, 1, box[i + axis] + box[i + 3 + axis]);
    count = clip(count, axis, -1, box[i + 3 + axis] - box[i + axis]);
  }
  return count;
}

/** Keeps what has `sign * coordinate <= limit`. */
function clip(count: number, axis: number, sign: number, limit: number): number {
  before.set(polygon);
  let kept = 0;
  for (let c = 0; c < count; c++) {
    const from = 3 * c;
    const to = 3 * ((c + 1) % count);
    const over = sign * before[from + axis] - limit;
    const next = sign * before[to + axis] - limit;
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
