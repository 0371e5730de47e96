import type { Block, Column, Row, Section } from './content.ts';
import { counted, type Figures } from './figures.ts';
import { isWithinOf } from './measuringError/measuringErrorInWords.ts';
import { type PairRow, pairRows, unknownInWords } from './pairRow.ts';
import { partTable } from './partTable.ts';
import { farProvenInWords } from './proven.ts';
import type { Checked, ReportInput } from './reportInput.ts';
import { steeringHeading } from './steering.ts';
import { isJoined, nothingElseInWords } from './treatment.ts';

const figure = (title: string): Column => ({ title, figure: true });

/** Sections on the pairs whose parts move relative to each other, and on those whose parts do not. */
export function pairSections(
  checked: Checked & Pick<ReportInput, 'measuringError'>,
  figures: Figures,
): Section[] {
  const numbered = pairRows(checked, figures).map((row, index) => ({ row, number: `${index + 1}` }));
  const { solvedSteps, lockedOut } = checked.findings;
  const proven = lockedOut !== undefined;
  const { unit } = figures;

  const { solids, measuringError } = checked;
  const stateOf = ({ state, pair: { a, b } }: PairRow): string =>
    isWithinOf(measuringError, solids[a].id, solids[b].id) ? `${state}, within measuring error` : state;
  const tables = (moving: boolean): Block[] => {
    const all = numbered.filter(({ row }) => row.pair.moves === moving);
    const here = all.filter(({ row }) => row.finding.state !== 'far');
    const far = all.map(({ row }) => row).filter((row) => row.finding.state === 'far');
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
    if (here.length === 0) return farBlocks.length > 0 ? farBlocks : [{ kind: 'text', text: 'None.' }];
    const poseColumns = moving
      ? [
          figure(`Travel, ${unit}`),
          figure(steeringHeading(checked.design.corner, figures)),
          figure('Wheel angle'),
        ]
      : [];
    const margins: Row[] = here.map(({ row, number }) => ({
      state: row.finding.state,
      cells: [
        number,
        stateOf(row),
        row.name,
        row.clearance,
        ...(moving && proven ? [row.nowhereBelow] : []),
        row.target,
        row.allowance,
        row.margin,
        ...(moving ? [row.travel, row.steer, row.wheelAngle] : []),
      ],
    }));
    const places: Row[] = here
      .filter(({ row }) => row.placeA !== '' || row.finding.state === 'unknown')
      .map(({ row, number }) => ({ cells: [number, ...placeCells(row, solvedSteps)] }));
    const targets: Row[] = here.map(({ row, number }) => ({
      cells: [number, row.name, `${row.target} ${unit}: ${row.pair.targetOrigin}`],
    }));
    const blocks: Block[] = [
      {
        kind: 'table',
        columns: [
          figure('No.'),
          { title: 'State' },
          { title: 'Pair' },
          figure(`Clearance, ${unit}`),
          ...(moving && proven ? [figure('Nowhere below')] : []),
          figure('Target'),
          figure('Allowances'),
          figure('Margin'),
          ...poseColumns,
        ],
        rows: margins,
      },
    ];
    if (places.length > 0)
      blocks.push({
        kind: 'table',
        columns: [figure('No.'), { title: 'Place on the first part' }, { title: 'Place on the second part' }],
        rows: places,
      });
    blocks.push(...contactBlocks(here));
    blocks.push({
      kind: 'table',
      columns: [figure('No.'), { title: 'Pair' }, { title: 'Target and its origin' }],
      rows: targets,
    });
    return [...blocks, ...farBlocks];
  };

  return [
    {
      title: 'Pairs that move relative to each other',
      blocks: [
        {
          kind: 'text',
          text: `Each pair at the worst pose found, ${proven ? 'at a step or between steps, ' : ''}least margin first. Margin is clearance less target less allowances.${proven ? ' Nowhere below: at no pose are the true parts closer, errors included.' : ''}`,
        },
        ...tables(true),
      ],
    },
    {
      title: 'Fit: pairs that do not move relative to each other',
      blocks: [
        {
          kind: 'text',
          text: 'Both parts move together, so their clearance is the same at every pose. Places are given at ride height.',
        },
        ...tables(false),
      ],
    },
  ];
}

/** Extent and volume of each contact; empty if no pair touches. */
function contactBlocks(numbered: readonly { row: PairRow; number: string }[]): Block[] {
  const touching = numbered.filter(({ row }) => row.contact !== '');
  if (touching.length === 0) return [];
  return [
    {
      kind: 'text',
      text: "Contact at that pose lies within these ranges, errors included, in the wheel's own axes: X forward of the wheel axis, depth outboard of the hub face, Z up from the wheel axis. The shared volume is that of the meshes.",
    },
    {
      kind: 'table',
      columns: [figure('No.'), { title: 'Pair' }, { title: 'Contact' }, figure('Shared volume')],
      rows: touching.map(({ row, number }) => ({
        cells: [number, row.name, row.contact, row.shared === '' ? 'unknown' : row.shared],
      })),
    },
  ];
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

function placeCells(row: PairRow, solvedSteps: number): [string, string] {
  const unknownPoses = unknownInWords(row.finding, solvedSteps);
  const first = row.placeA === '' ? '' : `${row.labelA}: ${row.placeA}`;
  return [
    [first, unknownPoses].filter((words) => words !== '').join('; '),
    row.placeB === '' ? '' : `${row.labelB}: ${row.placeB}`,
  ];
}
