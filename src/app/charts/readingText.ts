import type { Figures } from '../../report/figures.ts';
import { farInWords } from '../../report/treatment.ts';
import type { Pair } from '../../sweep/pair.ts';
import type { MeasuredPair } from '../stores/measuredPair.ts';

/**
 * "12.70 ± 0.15 mm" or "at least 19.20 mm deep" of a pair as measured at a pose; "far"; "joined; nothing else within 60 mm"
 * for joined parts; "?" if it is unknown.
 */
export function readingText(
  found: MeasuredPair | undefined,
  pair: Pick<Pair, 'zones'>,
  limitMm: number,
  figures: Figures,
): string {
  if (found?.state === 'far') return farInWords([pair], limitMm, figures);
  if (found === undefined || !Number.isFinite(found.clearanceMm)) return '?';
  return figures.withErrorAndUnit(found.clearanceMm, found.errorMm);
}
