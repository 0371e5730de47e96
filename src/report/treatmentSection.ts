import type { Block, Section } from './content.ts';
import { counted, type Figures } from './figures.ts';
import { pairName } from './pairRow.ts';
import { partTable } from './partTable.ts';
import type { Checked } from './reportInput.ts';
import { countsInWords, coverInWords, isJoined, treatmentCounts } from './treatment.ts';
import { zoneName, zonePlaceInWords, zoneSizeInWords } from './zoneInWords.ts';

/** Every pair of parts, by how it is treated: measured everywhere, measured outside zones, or not checked. */
export function treatmentSection(checked: Checked, figures: Figures): Section {
  const { result, findings } = checked;
  const counts = treatmentCounts(result.pairs, findings.unchecked);
  return {
    title: 'How each pair is treated',
    blocks: [
      {
        kind: 'text',
        text: `${countsInWords(counts)}. Every two parts are one of these pairs.`,
      },
      ...zoneBlocks(checked, figures),
      ...uncheckedBlocks(checked),
      ...everywhereBlocks(checked),
    ],
  };
}

/** Each zone of each joined pair: what meets there, how large it is, and where. */
function zoneBlocks({ design, solids, result }: Checked, figures: Figures): Block[] {
  const joined = result.pairs.filter(isJoined);
  if (joined.length === 0) return [];
  return [
    {
      kind: 'text',
      text: `Measured outside zones of intended contact, ${counted(joined.length, 'pair')}. All of both surfaces outside the zones is measured. Sizes are rounded up; places are those at ride height.`,
    },
    {
      kind: 'table',
      columns: [{ title: 'Pair' }, { title: 'What meets there' }, { title: 'Zone' }, { title: 'Middle' }],
      rows: joined.flatMap((pair) =>
        pair.zones.map((zone) => ({
          cells: [
            pairName(solids, pair),
            zoneName(zone),
            zoneSizeInWords(zone, figures),
            zonePlaceInWords(design.corner, zone, [solids[pair.a], solids[pair.b]], figures),
          ],
        })),
      ),
    },
  ];
}

function uncheckedBlocks({ solids, findings: { unchecked } }: Checked): Block[] {
  if (unchecked.length === 0) return [];
  return [
    {
      kind: 'text',
      text: `Not checked, ${counted(unchecked.length, 'pair')}. No distance between these parts is measured; where a check of dimensions covers them, it is named.`,
    },
    {
      kind: 'table',
      columns: [{ title: 'Pair' }, { title: 'Why not' }, { title: 'Checks of dimensions that cover it' }],
      rows: unchecked.map((pair) => ({ cells: [pairName(solids, pair), pair.why, coverInWords(pair)] })),
    },
  ];
}

function everywhereBlocks({ solids, result }: Checked): Block[] {
  const pairs = result.pairs.filter((pair) => !isJoined(pair));
  if (pairs.length === 0) return [];
  return [
    { kind: 'text', text: `Measured everywhere, ${counted(pairs.length, 'pair')}:` },
    partTable(
      'Measured against',
      pairs.map(({ a, b }) => [solids[a].label, solids[b].label]),
    ),
  ];
}
