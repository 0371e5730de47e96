import { visible } from '../units/plainText.ts';
import { stateInWords } from './content.ts';
import type { Figures } from './figures.ts';
import { type LimitRow, limitRows } from './limitRows.ts';
import type { Checked } from './reportInput.ts';
import { steeringTitle } from './steering.ts';
import { type TextHeading, textColumns } from './textColumns.ts';

interface Column extends TextHeading {
  of: (row: LimitRow) => string;
}

const column = (title: string, of: Column['of'], right = true): Column => ({ title, right, of });

/** `steering`: heading of the steering input. */
const columnsOf = (proven: boolean, steering: string): Column[] => [
  column('State', (row) => stateInWords(row.finding.state), false),
  column('Joint or damper', (row) => visible(row.name), false),
  column('Used', (row) => row.used),
  ...(proven ? [column('Proven', (row) => row.proven)] : []),
  column('Allowed', (row) => row.allowed),
  column('Left', (row) => row.left),
  column('Travel', (row) => row.travel),
  column(steering, (row) => row.steer),
  column('Wheel angle', (row) => row.wheelAngle),
];

/**
 * Joints and damper as text for a terminal, under a title. Below each one that is not clear: the origin of the allowed value
 * and how to reduce the tilt. Empty if the corner has neither.
 */
export function limitTable(checked: Pick<Checked, 'design' | 'findings'>, figures: Figures): string[] {
  const rows = limitRows(checked, figures);
  if (rows.length === 0) return [];
  const columns = columnsOf(checked.findings.lockedOut !== undefined, steeringTitle(checked.design.corner));
  const { titles, lines, firstWidth } = textColumns(
    columns,
    rows.map((row) => columns.map(({ of }) => of(row))),
  );
  const indent = ' '.repeat(firstWidth + 2);
  return [
    'Joints and damper:',
    titles,
    ...rows.flatMap((row, i) => [
      lines[i],
      ...(row.finding.state === 'clear' ? [] : [`allowed: ${row.from}`, row.advice])
        .filter((text) => text !== '')
        .map((text) => indent + text),
    ]),
    '',
  ];
}
