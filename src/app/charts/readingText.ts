import type { Figures } from '../../report/figures.ts';
import { clearanceText } from '../hold/clearanceText.ts';
import type { MeasuredPair } from '../stores/measuredPair.ts';

/** "12.70 ± 0.15 mm" of a pair as measured at a pose, "far", or "?" where it cannot be told. */
export function readingText(found: MeasuredPair | undefined, figures: Figures): string {
  if (found?.state === 'far') return 'far';
  const text = clearanceText(found, figures);
  return text === undefined ? '?' : `${text} ${figures.unit}`;
}
