import { pairLabel } from '../sweep/pair.ts';
import type { UnitChoice } from '../units/formatLength.ts';
import { visible } from '../units/plainText.ts';
import { counted, figuresIn } from './figures.ts';
import type { Checked } from './reportInput.ts';
import { coverInWords, isJoined } from './treatment.ts';
import { zoneName, zonePlaceInWords, zoneSizeInWords } from './zoneInWords.ts';

/** Every pair by treatment as text for a terminal, with zones, and the reason for each pair that is not checked. */
export function treatmentText({ design, solids, result, findings }: Checked, unit: UnitChoice): string {
  const figures = figuresIn(unit);
  const { unchecked } = findings;
  const joined = result.pairs.filter(isJoined);
  const everywhere = result.pairs.filter((pair) => !isJoined(pair));
  const pairs = (count: number) => counted(count, 'pair');
  const zones = joined.flatMap((pair) => [
    `  ${pairLabel(solids, pair)}`,
    ...pair.zones.flatMap((zone) => [
      `    ${zoneName(zone)}: ${zoneSizeInWords(zone, figures)}`,
      `      ${zonePlaceInWords(design.corner, zone, [solids[pair.a], solids[pair.b]], figures)}`,
    ]),
  ]);
  return [
    `Measured outside zones of intended contact, ${pairs(joined.length)}; sizes rounded up, places at ride height:`,
    ...zones,
    '',
    `Not checked, ${pairs(unchecked.length)}:`,
    ...unchecked.flatMap((pair) => [
      `  ${pairLabel(solids, pair)}: ${pair.why}`,
      `    covered by these dimension checks: ${coverInWords(pair)}`,
    ]),
    '',
    `Measured everywhere, ${pairs(everywhere.length)}:`,
    ...everywhere.map((pair) => `  ${pairLabel(solids, pair)}`),
  ]
    .map(visible)
    .join('\n');
}
