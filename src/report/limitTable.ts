import type { Corner } from '../design/schema.ts';
import { visible } from '../units/plainText.ts';
import { stateInWords } from './content.ts';
import type { Figures } from './figures.ts';
import { hoseSentences, type LimitRow, limitHeading, limitRows, limitTitle } from './limitRows.ts';
import type { Checked } from './reportInput.ts';
import { steeringTitle } from './steering.ts';
import { type TextHeading, textColumns } from './textColumns.ts';

interface Column extends TextHeading {
  of: (row: LimitRow) => string;
}

const column = (title: string, of: Column['of'], right = true): Column => ({ title, right, of });

const columnsOf = (proven: boolean, corner: Corner): Column[] => [
  column('State', (row) => stateInWords(row.finding.state), false),
  column(limitHeading(corner), (row) => visible(row.name), false),
  column('Used', (row) => row.used),
  ...(proven ? [column('Proven', (row) => row.proven)] : []),
  column('Allowed', (row) => row.allowed),
  column('Left', (row) => row.left),
  column('Travel', (row) => row.travel),
  column(steeringTitle(corner), (row) => row.steer),
  column('Wheel angle', (row) => row.wheelAngle),
];

/**
 * Joints and damper as text for a terminal, under a title. Below each one that is not clear: the origin of the allowed value
 * and how to reduce the tilt. Empty if the corner has neither.
 */
export function limitTable(checked: Pick<Checked, 'design' | 'findings'>, figures: Figures): string[] {
  const rows = limitRows(checked, figures);
  if (rows.length === 0) return [];
  const { corner } = checked.design;
  const columns = columnsOf(checked.findings.lockedOut !== undefined, corner);
  const { titles, lines, firstWidth } = textColumns(
    columns,
    rows.map((row) => columns.map(({ of }) => of(row))),
  );
  const indent = ' '.repeat(firstWidth + 2);
  return [
    `${limitTitle(corner)}:`,
    titles,
    ...rows.flatMap((row, i) => [
      lines[i],
      ...(row.finding.state === 'clear' ? [] : [`allowed: ${row.from}`, row.advice])
        .filter((text) => text !== '')
        .map((text) => indent + text),
    ]),
    ...hoseSentences(checked, figures),
    '',
  ];
}
