import type { Figures } from '../../../report/figures.ts';
import { zoneName, zoneSizeInWords } from '../../../report/zoneInWords.ts';
import type { Zone } from '../../../solids/solid.ts';

/** "Bolt in its hole: disc, 16.00 mm diameter, 12.00 mm thick": each kind of zone once, with its count. */
export function zoneLegend(zones: readonly Zone[], figures: Figures): { text: string; count: number }[] {
  const counts = new Map<string, number>();
  for (const zone of zones) {
    const text = `${zoneName(zone)}: ${zoneSizeInWords(zone, figures)}`;
    counts.set(text, (counts.get(text) ?? 0) + 1);
  }
  return [...counts].map(([text, count]) => ({ text, count }));
}
