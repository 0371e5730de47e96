import { type Arc, WHOLE_DEG } from '../../../studies/clocking/spans.ts';
import { readAngle } from '../../kit/readAngle.ts';

/** The ends of a range of clockings as typed; both empty for any clocking. */
export interface TypedEnds {
  from: string;
  to: string;
}

/** Parses a range: undefined for any clocking, a message if it is not a range. */
export function readRange({ from, to }: TypedEnds): Arc | undefined | string {
  const empty = [from, to].filter((text) => text.trim() === '').length;
  if (empty === 2) return undefined;
  if (empty === 1) return 'one end is empty: write both ends, or neither for any clocking';
  const [fromDeg, toDeg] = [readAngle(from), readAngle(to)];
  if (typeof fromDeg === 'string') return fromDeg;
  if (typeof toDeg === 'string') return toDeg;
  if (Math.max(Math.abs(fromDeg), Math.abs(toDeg)) > WHOLE_DEG)
    return `a clocking must be from −360° to 360°, and is ${Math.abs(fromDeg) > WHOLE_DEG ? from : to}`;
  if (toDeg < fromDeg) return `${from} to ${to}: the second angle must be larger, such as 170 to 190`;
  if (toDeg - fromDeg > WHOLE_DEG) return `${from} to ${to} is more than a full turn`;
  return { fromDeg, toDeg };
}
