import type { Block, Section } from './content.ts';
import { counted, type Figures, inBothUnits } from './figures.ts';
import { pairErrorOf, worstCaseInWords } from './measuringError/measuringErrorInWords.ts';
import type { NumberedRow } from './pairRow.ts';
import type { ReportPictures } from './pictures.ts';
import { poseInWords } from './pose.ts';
import type { ReportInput } from './reportInput.ts';

/** Id of the block of a pair. */
export const spotId = (pair: number): string => `pair-${pair}`;

/** Values named for a pair. */
const MOST_EFFECTS = 5;

/** A block for each of the tightest pairs: figures, the section through both points, the curves, and what moves it most. */
export function spotSections(
  input: ReportInput,
  rows: readonly NumberedRow[],
  { spots }: ReportPictures,
  figures: Figures,
): Section[] {
  return spots.flatMap(({ pair, section, curves }, k) => {
    const found = rows.find(({ row }) => row.finding.pair === pair);
    if (found === undefined) return [];
    const { row, number } = found;
    return [
      {
        title: `${number}. ${row.name}: ${row.state}`,
        id: spotId(pair),
        startsPage: k === 0,
        blocks: [
          { kind: 'drawing' as const, svg: section },
          ...(curves === '' ? [] : [{ kind: 'drawing' as const, svg: curves }]),
          { kind: 'list' as const, items: factsOf(input, found, figures) },
          ...effectBlocks(input, row.pair.a, row.pair.b),
        ],
      },
    ];
  });
}

function factsOf(input: ReportInput, { row }: NumberedRow, figures: Figures): string[] {
  const { worst } = row.finding;
  const { unit } = figures;
  const ids = [row.pair.a, row.pair.b].map((solid) => input.solids[solid].id);
  const error = pairErrorOf(input.measuringError, ids[0], ids[1]);
  const pose =
    worst !== undefined && row.pair.moves
      ? `at ${poseInWords(input.design.corner, worst, figures)}`
      : 'at every pose; places at ride height';
  const nowhere =
    row.nowhereBelow === '' || row.nowhereBelow === '–' ? '' : ` Nowhere below ${row.nowhereBelow} ${unit}.`;
  return [
    `Clearance ${worst === undefined ? row.clearance : inBothUnits(worst.clearanceMm, worst.errorMm, figures)}, ${pose}.${nowhere}`,
    `Target ${row.target} ${unit}: ${row.pair.targetOrigin}. Allowances ${row.allowance} ${unit}. Margin ${row.margin} ${unit}.`,
    ...(error === undefined || input.measuringError?.hasPlusMinus !== true
      ? []
      : [
          `Measuring error, worst case: ${worstCaseInWords(error, figures)}.${error.hasPlusMinus ? ` Root sum square: ${error.rootSumSquare} ${unit}.` : ''}`,
        ]),
    ...(row.placeA === '' ? [] : [`On ${row.labelA}: ${row.placeA}.`, `On ${row.labelB}: ${row.placeB}.`]),
    ...(row.contact === ''
      ? []
      : [
          `Contact lies within these ranges, errors included, in the wheel's own axes (X forward of the wheel axis, depth outboard of the hub face, Z up from the wheel axis): ${row.contact}. Shared volume of the meshes: ${row.shared === '' ? 'unknown' : row.shared}.`,
        ]),
  ];
}

/** What moves a clearance most, if its effects were studied. */
function effectBlocks({ measuringError, solids }: ReportInput, a: number, b: number): Block[] {
  const found = pairErrorOf(measuringError, solids[a].id, solids[b].id);
  if (found === undefined)
    return [
      {
        kind: 'text',
        text: 'What moves this clearance most is unknown: it was not studied, or the clearance or depth is not known.',
      },
    ];
  if (found.effects.length === 0)
    return [{ kind: 'text', text: 'No value of the file moves this clearance by more than the error.' }];
  const { effects } = found;
  const more = effects.length - MOST_EFFECTS;
  return [
    {
      kind: 'text',
      text: `What moves this clearance most${more > 0 ? `, ${counted(MOST_EFFECTS, 'value')} of ${effects.length}` : ''}:`,
    },
    {
      kind: 'table',
      columns: [
        { title: 'Value' },
        { title: 'In the file', figure: true },
        { title: 'Change of the clearance', figure: true },
      ],
      rows: effects
        .slice(0, MOST_EFFECTS)
        .map(({ name, inFile, change, unit }) => ({ cells: [name, inFile, `${change} ${unit}`] })),
    },
  ];
}
