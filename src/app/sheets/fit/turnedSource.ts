import type { Assets } from '../../../design/assets.ts';
import { parseDesign } from '../../../design/parse.ts';
import {
  clockedSource,
  type Mounting,
  mountedDesign,
  mountedSource,
  mountingsOf,
} from '../../../studies/clocking/apply.ts';
import { type Clockings, drawnClockings } from '../../../studies/clocking/studyPairs.ts';
import { fitKey } from '../../workers/fit/fitFound.ts';

/**
 * The file with new clockings and the mounting of the study with `key`. `mounting`: the change of mounting against the file,
 * which may already have it during a drag. Undefined if the file is not valid or is no longer the studied corner.
 */
export function turnedSource(
  source: unknown,
  key: string,
  to: Clockings,
  assets?: Assets,
): { source: unknown; mounting: Mounting } | undefined {
  const parsed = parseDesign(JSON.stringify(source), assets);
  if (parsed.kind === 'bad') return undefined;
  const { design } = parsed;
  const mounting = mountingsOf(design).find((one) => fitKey(mountedDesign(design, one)) === key);
  if (mounting === undefined) return undefined;
  const mounted = mountedSource(design, mounting);
  return { source: clockedSource(mounted, drawnClockings(design), to), mounting };
}
