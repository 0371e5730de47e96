export const degToRad = (deg: number): number => (deg * Math.PI) / 180;
export const radToDeg = (rad: number): number => (rad * 180) / Math.PI;

/** Degrees of an angle as typed: `0.5`, `0.5°`, `0,5 deg`, `−1°`; NaN for any other text. */
export function degreesIn(typed: string): number {
  const number = /^([+-]?\d*[.,]?\d+)\s*(?:°|deg|degrees?)?$/.exec(typed.trim().replace('−', '-'))?.[1];
  return number === undefined ? Number.NaN : Number(number.replace(',', '.'));
}

/** An angle as typed. */
export interface ParsedAngle {
  degrees: number;
  /** Half the width of the tolerance, as typed after ±; undefined if none was typed. */
  plusMinusDeg: number | undefined;
}

/** An angle with or without its ±: `12.5`, `−0.75° ±0.25°`; undefined for any other text, and for a ± that is not above zero. */
export function parseAngle(typed: string): ParsedAngle | undefined {
  const [value, plusMinus, ...more] = typed.split(/±|\+\/-|\+-/);
  const degrees = degreesIn(value);
  const plusMinusDeg = plusMinus === undefined ? undefined : degreesIn(plusMinus);
  const isRead =
    more.length === 0 && !Number.isNaN(degrees) && (plusMinusDeg === undefined || plusMinusDeg > 0);
  return isRead ? { degrees, plusMinusDeg } : undefined;
}
