import type { UnitChoice } from '../units/formatLength.ts';
import { stateInWords } from './content.ts';
import { printable } from './escape.ts';
import { counted, type Figures, figuresIn } from './figures.ts';
import { type PairRow, pairRows, unknownInWords } from './pairRow.ts';
import { farProvenInWords } from './proven.ts';
import type { Checked } from './reportInput.ts';
import { type TextHeading, textColumns } from './textColumns.ts';

interface TextColumn extends TextHeading {
  of: (row: PairRow) => string;
}

const NOWHERE_BELOW: TextColumn = { title: 'Nowhere below', right: true, of: (row) => row.nowhereBelow };

const columnsOf = (proven: boolean): TextColumn[] => [
  { title: 'State', right: false, of: (row) => stateInWords(row.finding.state) },
  { title: 'Pair', right: false, of: (row) => printable(row.name) },
  { title: 'Clearance', right: true, of: (row) => row.clearance },
  ...(proven ? [NOWHERE_BELOW] : []),
  { title: 'Target', right: true, of: (row) => row.target },
  { title: 'Allowances', right: true, of: (row) => row.allowance },
  { title: 'Margin', right: true, of: (row) => row.margin },
  { title: 'Travel', right: true, of: (row) => (row.pair.moves ? row.travel : 'any') },
  { title: 'Rack', right: true, of: (row) => (row.pair.moves ? row.rack : 'any') },
  { title: 'Wheel angle', right: true, of: (row) => (row.pair.moves ? row.wheelAngle : 'any') },
];

/**
 * The pairs by margin as text for a terminal, with the place on each part beneath each row. Far pairs are counted in
 * one line, or listed with the others where `listFar`.
 */
export function pairTable(checked: Checked, unit: UnitChoice, listFar: boolean): string {
  const figures = figuresIn(unit);
  const rows = pairRows(checked, figures).filter((row) => listFar || row.finding.state !== 'far');
  const columns = columnsOf(checked.findings.lockedOut !== undefined);
  const hidden = checked.findings.pairs.filter(({ state }) => !listFar && state === 'far');
  const proven = farProvenInWords(checked, hidden, figures);
  const rest =
    hidden.length === 0
      ? []
      : [
          `${rows.length > 0 ? 'And ' : ''}${counted(hidden.length, 'far pair')}, at least ${figures.givenWithUnit(checked.result.settings.limitMm)} apart${proven === '' ? '.' : ` at every step. ${proven}`}`,
        ];
  if (rows.length === 0) return rest.join('\n');
  const { titles, lines, firstWidth } = textColumns(
    columns,
    rows.map((row) => columns.map((column) => column.of(row))),
  );
  const indent = ' '.repeat(firstWidth + 2);
  return [
    titles,
    ...rows.flatMap((row, i) => [lines[i], ...beneath(row, checked, figures).map((text) => indent + text)]),
    ...rest,
  ].join('\n');
}

function beneath(row: PairRow, { findings }: Checked, { unit }: Figures): string[] {
  const lines = [];
  const untold = unknownInWords(row.finding, findings.solvedSteps);
  if (untold !== '') lines.push(untold);
  if (row.placeA !== '')
    lines.push(`on ${printable(row.labelA)}: ${row.placeA}`, `on ${printable(row.labelB)}: ${row.placeB}`);
  if (row.finding.state === 'touches' || row.finding.state === 'tight')
    lines.push(`target ${row.target} ${unit}: ${printable(row.pair.targetOrigin)}`);
  return lines;
}
