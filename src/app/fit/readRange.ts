import { type Arc, WHOLE_DEG } from '../../studies/clocking/spans.ts';
import { readAngle } from '../readAngle.ts';

/** The ends of a range of clockings as typed; both empty where any clocking will do. */
export interface TypedEnds {
  from: string;
  to: string;
}

/** A range as typed: undefined for any clocking; a sentence where it is none. */
export function readRange({ from, to }: TypedEnds): Arc | undefined | string {
  const empty = [from, to].filter((text) => text.trim() === '').length;
  if (empty === 2) return undefined;
  if (empty === 1) return 'give both ends of the range, or neither for any clocking';
  const [fromDeg, toDeg] = [readAngle(from), readAngle(to)];
  if (typeof fromDeg === 'string') return fromDeg;
  if (typeof toDeg === 'string') return toDeg;
  if (Math.max(Math.abs(fromDeg), Math.abs(toDeg)) > WHOLE_DEG)
    return `a clocking is from −360° to 360°, not ${Math.abs(fromDeg) > WHOLE_DEG ? from : to}`;
  if (toDeg < fromDeg) return `${from} to ${to}: the second must be the larger, such as 170 to 190`;
  if (toDeg - fromDeg > WHOLE_DEG) return `${from} to ${to} is more than a whole turn`;
  return { fromDeg, toDeg };
}
