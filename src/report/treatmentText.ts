import { visible } from '../design/plainText.ts';
import type { UnitChoice } from '../units/formatLength.ts';
import { counted, figuresIn } from './figures.ts';
import { pairName } from './pairRow.ts';
import type { Checked } from './reportInput.ts';
import { coverInWords, isJoined } from './treatment.ts';
import { zoneName, zonePlaceInWords, zoneSizeInWords } from './zoneInWords.ts';

/** Every pair by how it is treated, as text for a terminal: the zones of the joined ones, and why others are not checked. */
export function treatmentText({ design, solids, result, findings }: Checked, unit: UnitChoice): string {
  const figures = figuresIn(unit);
  const { unchecked } = findings;
  const joined = result.pairs.filter(isJoined);
  const everywhere = result.pairs.filter((pair) => !isJoined(pair));
  const pairs = (count: number) => counted(count, 'pair');
  const zones = joined.flatMap((pair) => [
    `  ${pairName(solids, pair)}`,
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
      `  ${pairName(solids, pair)}: ${pair.why}`,
      `    checks of dimensions that cover it: ${coverInWords(pair)}`,
    ]),
    '',
    `Measured everywhere, ${pairs(everywhere.length)}:`,
    ...everywhere.map((pair) => `  ${pairName(solids, pair)}`),
  ]
    .map(visible)
    .join('\n');
}
