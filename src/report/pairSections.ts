import type { Block, Column, Section } from './content.ts';
import { counted, type Figures } from './figures.ts';
import { type NumberedRow, type PairRow, unknownInWords } from './pairRow.ts';
import { partTable } from './partTable.ts';
import type { ReportPictures } from './pictures.ts';
import { farProvenInWords } from './proven.ts';
import type { Checked } from './reportInput.ts';
import { spotId } from './spotSections.ts';
import { steeringHeading } from './steering.ts';
import { isJoined, nothingElseInWords } from './treatment.ts';

const figure = (title: string): Column => ({ title, figure: true });

/** Section on all pairs: one table of those that are not far, the origins of the targets, and the far pairs, folded. */
export function pairsSection(
  checked: Checked,
  rows: readonly NumberedRow[],
  { spots }: Pick<ReportPictures, 'spots'>,
  figures: Figures,
): Section {
  const proven = checked.findings.lockedOut !== undefined;
  const { unit } = figures;
  const here = rows.filter(({ row }) => row.finding.state !== 'far');
  const far = rows.map(({ row }) => row).filter((row) => row.finding.state === 'far');
  const hasSpot = new Set(spots.map(({ pair }) => pair));
  const blocks: Block[] = [
    {
      kind: 'text',
      text: `Each pair at the worst pose found, ${proven ? 'at a step or between steps, ' : ''}those that fall short first, then least margin first. Margin is clearance less target less allowances.${proven ? ' Nowhere below: at no pose are the true parts closer, errors included.' : ''} Fit: both parts move together, so their clearance is the same at every pose.`,
    },
  ];
  if (here.length > 0)
    blocks.push(
      {
        kind: 'table',
        columns: [
          figure('No.'),
          { title: 'State' },
          { title: 'Pair' },
          figure(`Clearance, ${unit}`),
          ...(proven ? [figure('Nowhere below')] : []),
          figure('Target'),
          figure('Allowances'),
          figure('Margin'),
          figure(`Travel, ${unit}`),
          figure(steeringHeading(checked.design.corner, figures)),
          figure('Wheel angle'),
        ],
        rows: here.map(({ row, number }) => ({
          state: row.finding.state,
          ...(hasSpot.has(row.finding.pair) ? { to: spotId(row.finding.pair) } : {}),
          cells: [
            number,
            row.state,
            row.name,
            row.clearance,
            ...(proven ? [row.pair.moves ? row.nowhereBelow : 'fit'] : []),
            row.target,
            row.allowance,
            row.margin,
            ...(row.pair.moves ? [row.travel, row.steer, row.wheelAngle] : ['fit', '', '']),
          ],
        })),
      },
      ...unknownBlocks(checked, here),
      { kind: 'text', text: `Origin of each target, ${unit}:` },
      originTable(here),
    );
  const farBlocks = [
    ...farTable(
      far.filter(({ pair }) => !isJoined(pair)),
      figures,
      checked,
    ),
    ...joinedTable(
      far.filter(({ pair }) => isJoined(pair)),
      figures,
      checked,
    ),
  ];
  if (farBlocks.length > 0)
    blocks.push({
      kind: 'folded',
      title: `${counted(far.length, 'pair')} with nothing near`,
      blocks: farBlocks,
    });
  return { title: 'All pairs', startsPage: true, blocks };
}

/** At how many poses pairs are unknown; empty if none is. */
function unknownBlocks({ findings }: Checked, rows: readonly NumberedRow[]): Block[] {
  const items = rows.flatMap(({ row, number }) => {
    const words = unknownInWords(row.finding, findings.solvedSteps);
    return words === '' ? [] : [`No. ${number}: ${words}.`];
  });
  return items.length === 0 ? [] : [{ kind: 'list', items }];
}

/** Each target with its origin and the numbers of its pairs. */
function originTable(rows: readonly NumberedRow[]): Block {
  const numbers = new Map<string, { cells: [string, string]; of: string[] }>();
  for (const { row, number } of rows) {
    const cells: [string, string] = [row.target, row.pair.targetOrigin];
    const known = numbers.get(cells.join('\n')) ?? { cells, of: [] };
    known.of.push(number);
    numbers.set(cells.join('\n'), known);
  }
  return {
    kind: 'table',
    columns: [figure('Target'), { title: 'Origin' }, { title: 'No.' }],
    rows: [...numbers.values()].map(({ cells, of }) => ({ cells: [...cells, of.join(', ')] })),
  };
}

/** Far pairs, grouped by their first part; empty if there are none. */
function farTable(far: readonly PairRow[], figures: Figures, checked: Checked): Block[] {
  if (far.length === 0) return [];
  const { limitMm } = checked.result.settings;
  const proven = farProvenInWords(
    checked,
    far.map(({ finding }) => finding),
    figures,
  );
  return [
    {
      kind: 'text',
      text: `${counted(far.length, 'pair stays', 'pairs stay')} at least ${figures.givenWithUnit(limitMm)} apart at every step. ${proven === '' ? '' : `${proven} `}Targets in brackets, ${figures.unit}:`,
    },
    partTable(
      'Far from',
      far.map(({ labelA, labelB, target }) => [labelA, `${labelB} (${target})`]),
    ),
  ];
}

/** Joined pairs that are far outside their zones, grouped by their first part; empty if there are none. */
function joinedTable(joined: readonly PairRow[], figures: Figures, checked: Checked): Block[] {
  if (joined.length === 0) return [];
  const proven = farProvenInWords(
    checked,
    joined.map(({ finding }) => finding),
    figures,
  );
  const nothing = nothingElseInWords(checked.result.settings.limitMm, figures);
  return [
    {
      kind: 'text',
      text: `${counted(joined.length, 'pair is', 'pairs are')} joined; ${nothing} at any step.${proven === '' ? '' : ` ${proven}`} Targets in brackets, ${figures.unit}:`,
    },
    partTable(
      'Joined to',
      joined.map(({ labelA, labelB, target }) => [labelA, `${labelB} (${target})`]),
    ),
  ];
}
