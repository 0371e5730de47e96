/** Far below what can be seen on paper. */
const ROUNDING_MM = 1e-6;

/**
 * The lane of each span, 0 next to the view: short ones first, each in the nearest lane in which it meets no other. A longer
 * span is never nearer than a shorter one that it overlaps.
 */
export function lanesFor(spans: readonly (readonly [number, number])[]): number[] {
  const lanes: number[] = spans.map(() => 0);
  const byLength = [...spans.keys()].sort((i, j) => spans[i][1] - spans[i][0] - (spans[j][1] - spans[j][0]));
  // Two that share an end may follow each other in one lane.
  const meets = (i: number, j: number) =>
    spans[i][0] < spans[j][1] - ROUNDING_MM && spans[j][0] < spans[i][1] - ROUNDING_MM;
  byLength.forEach((i, place) => {
    lanes[i] = Math.max(
      0,
      ...byLength
        .slice(0, place)
        .filter((j) => meets(i, j))
        .map((j) => lanes[j] + 1),
    );
  });
  return lanes;
}
