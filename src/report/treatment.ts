import type { Pair, UncheckedPair } from '../sweep/pair.ts';
import { counted, type Figures } from './figures.ts';

/** How a pair of solids is checked. */
export type Treatment = 'everywhere' | 'outsideZones' | 'notChecked';

type Zoned = Pick<Pair, 'zones'>;

/** True if the pair has a zone of intended contact. */
export const isJoined = ({ zones }: Zoned): boolean => zones.length > 0;

/** The treatment of a checked pair. */
export const treatmentOf = (pair: Zoned): Exclude<Treatment, 'notChecked'> =>
  isJoined(pair) ? 'outsideZones' : 'everywhere';

/** The number of pairs of each treatment; of n solids they add up to n(n - 1) / 2. */
export function treatmentCounts(
  pairs: readonly Zoned[],
  unchecked: readonly UncheckedPair[],
): Record<Treatment, number> {
  const outsideZones = pairs.filter(isJoined).length;
  return { everywhere: pairs.length - outsideZones, outsideZones, notChecked: unchecked.length };
}

/** "measured everywhere", "measured outside 2 zones". */
export const treatmentInWords = ({ zones }: Zoned): string =>
  zones.length === 0 ? 'measured everywhere' : `measured outside ${counted(zones.length, 'zone')}`;

/** "231 pairs: 180 measured everywhere, 25 measured outside zones of intended contact, 26 not checked". */
export function countsInWords({ everywhere, outsideZones, notChecked }: Record<Treatment, number>): string {
  const all = counted(everywhere + outsideZones + notChecked, 'pair');
  return `${all}: ${everywhere} measured everywhere, ${outsideZones} measured outside zones of intended contact, ${notChecked} not checked`;
}

/** The dimension checks that cover an unchecked pair: "pilot in bore, studs in holes", or "none". */
export const coverInWords = ({ coveredBy = [] }: UncheckedPair): string =>
  coveredBy.length === 0 ? 'none' : coveredBy.join(', ');

/** The search limit without trailing zeros: "60 mm". */
const limitInWords = (limitMm: number, { given, unit }: Figures): string =>
  `${given(limitMm).replace(/\.?0+$/, '')} ${unit}`;

/** "nothing else within 60 mm", for two joined parts outside their zones. */
export const nothingElseInWords = (limitMm: number, figures: Figures): string =>
  `nothing else within ${limitInWords(limitMm, figures)}`;

/**
 * The state `far` as text, for one pair or for several together. Joined parts are never called far: they meet in their
 * zones.
 */
export function farInWords(pairs: readonly Zoned[], limitMm: number, figures: Figures): string {
  const joined = pairs.filter(isJoined).length;
  if (joined === 0) return 'far';
  return joined === pairs.length
    ? `joined; ${nothingElseInWords(limitMm, figures)}`
    : `nothing within ${limitInWords(limitMm, figures)} except joined parts`;
}
