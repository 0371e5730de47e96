import { parseDesign } from '../../design/parse.ts';
import {
  clockedSource,
  type Mounting,
  mountedDesign,
  mountedSource,
  mountingsOf,
} from '../../studies/clocking/apply.ts';
import { type Clockings, drawnClockings } from '../../studies/clocking/studyPairs.ts';
import { fitKey } from './fitFound.ts';

/**
 * A file turned to some clockings, and mounted as the corner that was studied by a key: that may be so already while the file
 * is turned on. `mounting` tells how it is then mounted against what it was. Undefined where the file is not sound, or is
 * another corner by now.
 */
export function turnedSource(
  source: unknown,
  key: string,
  to: Clockings,
): { source: unknown; mounting: Mounting } | undefined {
  const parsed = parseDesign(JSON.stringify(source));
  if (parsed.kind === 'bad') return undefined;
  const { design } = parsed;
  const mounting = mountingsOf(design).find((one) => fitKey(mountedDesign(design, one)) === key);
  if (mounting === undefined) return undefined;
  const mounted = mountedSource(design, mounting);
  return { source: clockedSource(mounted, drawnClockings(design), to), mounting };
}
