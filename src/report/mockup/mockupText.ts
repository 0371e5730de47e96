import type { MockupStudy } from '../../studies/mockup/mockup.ts';
import { visible } from '../../units/plainText.ts';
import type { Figures } from '../figures.ts';
import { textTable } from '../varied/variedTable.ts';
import { gapRows, gapsInWords, othersInWords, SUSPECTS_MEAN, suspectRows } from './mockupRows.ts';

/** A mock-up study as lines for a terminal. */
export function mockupLines(study: MockupStudy, figures: Figures): string[] {
  const rows = gapRows(study, figures);
  const table = textTable(
    ['Result', 'Pair', 'Computed', 'Measured', 'Difference', 'Measuring error'],
    rows.map((row) => [
      row.result,
      visible(row.pair),
      row.predicted,
      row.measured,
      row.difference,
      row.measuringError,
    ]),
    new Set([2, 3, 4, 5]),
  );
  const [titles, ...lines] = table;
  const suspects = suspectRows(study, figures);
  return [
    `Gaps measured on the mock-up, in ${figures.unitName}:`,
    titles,
    ...lines.flatMap((line, i) => [
      line,
      ...[`at ${rows[i].pose}`, rows[i].who, rows[i].note]
        .filter((text) => text !== '')
        .map((text) => `  ${visible(text)}`),
    ]),
    '',
    gapsInWords(study),
    ...(suspects.length === 0
      ? []
      : [
          '',
          ...textTable(
            [
              'Value',
              'In the file',
              'Most probable change',
              `Effect on each gap that differs, ${figures.unit}`,
            ],
            suspects,
            new Set([1, 2, 3]),
          ).map(visible),
          SUSPECTS_MEAN,
        ]),
    ...othersInWords(study, figures).map(visible),
  ];
}
