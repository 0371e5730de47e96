import type { Figures } from '../../report/figures.ts';
import { farInWords } from '../../report/treatment.ts';
import type { Pair } from '../../sweep/pair.ts';
import type { MeasuredPair } from '../state/measuredPair.ts';

/**
 * Clearance of a pair at a pose: "12.70 ± 0.15 mm", "at least 19.20 mm deep", or "far"; for joined parts that are far
 * elsewhere "joined; nothing else within 60 mm"; "?" if it is unknown.
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
