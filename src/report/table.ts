import type { PairFinding } from '../findings/findings.ts';
import type { UnitChoice } from '../units/formatLength.ts';
import { visible } from '../units/plainText.ts';
import { counted, type Figures, figuresIn } from './figures.ts';
import { type PairRow, pairRows, unknownInWords } from './pairRow.ts';
import { farProvenInWords } from './proven.ts';
import type { Checked } from './reportInput.ts';
import { steeringTitle } from './steering.ts';
import { type TextHeading, textColumns } from './textColumns.ts';
import { isJoined, nothingElseInWords } from './treatment.ts';

interface TextColumn extends TextHeading {
  of: (row: PairRow) => string;
}

const NOWHERE_BELOW: TextColumn = { title: 'Nowhere below', right: true, of: (row) => row.nowhereBelow };

/** `steering`: heading of the steering input. */
const columnsOf = (proven: boolean, steering: string): TextColumn[] => [
  { title: 'State', right: false, of: (row) => row.state },
  { title: 'Pair', right: false, of: (row) => visible(row.name) },
  { title: 'Clearance', right: true, of: (row) => row.clearance },
  ...(proven ? [NOWHERE_BELOW] : []),
  { title: 'Target', right: true, of: (row) => row.target },
  { title: 'Allowances', right: true, of: (row) => row.allowance },
  { title: 'Margin', right: true, of: (row) => row.margin },
  { title: 'Travel', right: true, of: (row) => (row.pair.moves ? row.travel : 'any') },
  { title: steering, right: true, of: (row) => (row.pair.moves ? row.steer : 'any') },
  { title: 'Wheel angle', right: true, of: (row) => (row.pair.moves ? row.wheelAngle : 'any') },
];

/**
 * The pairs by margin as text for a terminal, with the place on each part below each row. Pairs with nothing within the
 * search limit are counted, far ones in one line and joined ones in another; with `listFar` they are listed.
 */
export function pairTable(checked: Checked, unit: UnitChoice, listFar: boolean): string {
  const figures = figuresIn(unit);
  const rows = pairRows(checked, figures).filter((row) => listFar || row.finding.state !== 'far');
  const columns = columnsOf(checked.findings.lockedOut !== undefined, steeringTitle(checked.design.corner));
  const hidden = checked.findings.pairs.filter(({ state }) => !listFar && state === 'far');
  const isJoinedPair = ({ pair }: PairFinding) => isJoined(checked.result.pairs[pair]);
  const rest = [
    farLine(
      checked,
      hidden.filter((finding) => !isJoinedPair(finding)),
      figures,
    ),
    joinedLine(checked, hidden.filter(isJoinedPair), figures),
  ]
    .filter((line) => line !== '')
    .map((line, i) => (rows.length > 0 && i === 0 ? `And ${line}` : line));
  if (rows.length === 0) return rest.join('\n');
  const { titles, lines, firstWidth } = textColumns(
    columns,
    rows.map((row) => columns.map((column) => column.of(row))),
  );
  const indent = ' '.repeat(firstWidth + 2);
  return [
    titles,
    ...rows.flatMap((row, i) => [
      lines[i],
      ...detailLines(row, checked, figures).map((text) => indent + text),
    ]),
    ...rest,
  ].join('\n');
}

/** Line that counts the far pairs; empty if there are none. */
function farLine(checked: Checked, far: readonly PairFinding[], figures: Figures): string {
  if (far.length === 0) return '';
  const proven = farProvenInWords(checked, far, figures);
  const apart = figures.givenWithUnit(checked.result.settings.limitMm);
  return `${counted(far.length, 'far pair')}, at least ${apart} apart${proven === '' ? '.' : ` at every step. ${proven}`}`;
}

/** Line that counts the joined pairs with nothing else within the search limit; empty if there are none. */
function joinedLine(checked: Checked, joined: readonly PairFinding[], figures: Figures): string {
  if (joined.length === 0) return '';
  const proven = farProvenInWords(checked, joined, figures);
  const are = counted(joined.length, 'pair is', 'pairs are');
  const nothing = nothingElseInWords(checked.result.settings.limitMm, figures);
  return `${are} joined; ${nothing}${proven === '' ? '.' : ` at any step. ${proven}`}`;
}

function detailLines(row: PairRow, { findings }: Checked, { unit }: Figures): string[] {
  const lines = [];
  const unknownPoses = unknownInWords(row.finding, findings.solvedSteps);
  if (unknownPoses !== '') lines.push(unknownPoses);
  if (row.placeA !== '')
    lines.push(`on ${visible(row.labelA)}: ${row.placeA}`, `on ${visible(row.labelB)}: ${row.placeB}`);
  if (row.finding.state === 'touches' || row.finding.state === 'tight')
    lines.push(`target ${row.target} ${unit}: ${visible(row.pair.targetOrigin)}`);
  return lines;
}
