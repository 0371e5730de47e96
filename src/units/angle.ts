export const degToRad = (deg: number): number => (deg * Math.PI) / 180;
export const radToDeg = (rad: number): number => (rad * 180) / Math.PI;

/** Degrees of an angle as typed: `0.5`, `0.5°`, `0,5 deg`, `−1°`; NaN for any other text. */
export function degreesIn(typed: string): number {
  const number = /^([+-]?\d*[.,]?\d+)\s*(?:°|deg|degrees?)?$/.exec(typed.trim().replace('−', '-'))?.[1];
  return number === undefined ? Number.NaN : Number(number.replace(',', '.'));
}
