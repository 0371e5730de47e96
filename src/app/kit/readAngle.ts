/** Degrees from a typed text; an error message if it is not an angle. */
export function readAngle(text: string): number | string {
  const degrees = Number(text.replace('°', '').replace(/[−–]/g, '-').replace(',', '.').trim() || Number.NaN);
  return Number.isFinite(degrees) ? degrees : `"${text}" is not an angle: write degrees, such as 12.5`;
}
