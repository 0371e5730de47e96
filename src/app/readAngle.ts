/** Degrees out of a text as typed; a sentence where it is no angle. */
export function readAngle(text: string): number | string {
  const degrees = Number(text.replace('°', '').replace(/[−–]/g, '-').replace(',', '.').trim() || Number.NaN);
  return Number.isFinite(degrees) ? degrees : `"${text}" is not an angle: write degrees, such as 12.5`;
}
