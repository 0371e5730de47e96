import { withGiven } from '../../design/assumed.ts';
import { valueAt } from '../../design/path.ts';
import type { Corner } from '../../design/schema.ts';
import type { Clockings } from '../../studies/clocking/studyPairs.ts';
import { entriesOf } from '../bench/partOf.ts';

/** How the first caliper and the hub of a corner are clocked, degrees; 0 for one that is not there. */
export function clockingsOf({ parts }: Pick<Corner, 'parts'>): Clockings {
  const caliper = parts.find((part) => part.kind === 'caliper');
  const hub = parts.find((part) => part.kind === 'hub');
  return { caliperDeg: caliper?.clockingDeg ?? 0, hubDeg: hub?.clockingDeg ?? 0 };
}

/** A file with its first caliper and its hub turned; angles to a hundredth of a degree, all else as typed. */
export function withClockings(source: unknown, { caliperDeg, hubDeg }: Clockings): unknown {
  const wanted = [
    ['caliper', caliperDeg],
    ['hub', hubDeg],
  ] as const;
  return wanted.reduce((file, [kind, deg]) => {
    const at = entriesOf(file).findIndex((entry) => valueAt(entry, ['kind']) === kind);
    const rounded = Number(deg.toFixed(2));
    if (at < 0 || valueAt(file, ['parts', at, 'clockingDeg']) === rounded) return file;
    return withGiven(file, ['parts', at, 'clockingDeg'], rounded);
  }, source);
}
