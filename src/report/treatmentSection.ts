import { pairLabel, type UncheckedPair } from '../sweep/pair.ts';
import type { Block, Section } from './content.ts';
import { counted, type Figures } from './figures.ts';
import { pairsInFewLines } from './groupedPairs.ts';
import type { Checked } from './reportInput.ts';
import { countsInWords, coverInWords, isJoined, treatmentCounts } from './treatment.ts';
import { zoneName, zonePlaceInWords, zoneSizeInWords } from './zoneInWords.ts';

/** Section that lists every pair by treatment: measured outside zones, not checked, or measured everywhere. */
export function treatmentSection(checked: Checked, figures: Figures): Section {
  const { result, findings } = checked;
  const counts = treatmentCounts(result.pairs, findings.unchecked);
  return {
    title: 'Treatment of each pair',
    blocks: [
      {
        kind: 'text',
        text: `${countsInWords(counts)}. Any two parts are one of these pairs; those that are in no list here are measured everywhere.`,
      },
      ...folded('Zones of intended contact', zoneBlocks(checked, figures)),
      ...folded('Pairs that are not checked', uncheckedBlocks(checked)),
    ],
  };
}

const folded = (title: string, blocks: Block[]): Block[] =>
  blocks.length === 0 ? [] : [{ kind: 'folded', title, blocks }];

/** Contact, size and place of each zone of each joined pair. */
function zoneBlocks({ design, solids, result }: Checked, figures: Figures): Block[] {
  const joined = result.pairs.filter(isJoined);
  if (joined.length === 0) return [];
  return [
    {
      kind: 'text',
      text: `Measured outside zones of intended contact, ${counted(joined.length, 'pair')}. Both surfaces are measured everywhere outside the zones. Sizes are rounded up; places are at ride height.`,
    },
    {
      kind: 'table',
      columns: [{ title: 'Pair' }, { title: 'Intended contact' }, { title: 'Zone' }, { title: 'Centre' }],
      rows: joined.flatMap((pair) =>
        pair.zones.map((zone) => ({
          cells: [
            pairLabel(solids, pair),
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
      text: `Not checked, ${counted(unchecked.length, 'pair')}. No distance between these parts is measured. A check of dimensions that covers them is listed.`,
    },
    {
      kind: 'table',
      columns: [
        { title: 'Pairs' },
        { title: 'Number', figure: true },
        { title: 'Reason' },
        { title: 'Covered by these dimension checks' },
      ],
      rows: groupsOf(unchecked).map((pairs) => ({
        cells: [
          pairsInFewLines(solids, pairs).join('; '),
          `${pairs.length}`,
          pairs[0].why,
          coverInWords(pairs[0]),
        ],
      })),
    },
  ];
}

/** Groups unchecked pairs by their reason and what covers them, in the order of the first of each group. */
function groupsOf(unchecked: readonly UncheckedPair[]): UncheckedPair[][] {
  const groups = new Map<string, UncheckedPair[]>();
  for (const pair of unchecked) {
    const key = JSON.stringify([pair.why, pair.coveredBy]);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [pair]);
    else group.push(pair);
  }
  return [...groups.values()];
}
