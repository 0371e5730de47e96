import type { MockupStudy } from '../../studies/mockup/mockup.ts';
import type { Block, Section } from '../content.ts';
import type { Figures } from '../figures.ts';
import { gapRows, gapsInWords, othersInWords, SUSPECTS_MEAN, suspectRows } from './mockupRows.ts';

/** Section for signing off: the gaps measured on the mock-up beside the computed ones. Empty if the file has none. */
export function mockupSections(study: MockupStudy | undefined, figures: Figures): Section[] {
  if (study === undefined || study.gaps.length === 0) return [];
  const figure = (title: string) => ({ title, figure: true });
  const suspects = suspectRows(study, figures);
  const others = othersInWords(study, figures);
  const blocks: Block[] = [
    { kind: 'text', text: gapsInWords(study) },
    {
      kind: 'table',
      columns: [
        { title: 'Result' },
        { title: 'Pair' },
        { title: 'Pose' },
        figure(`Computed, ${figures.unit}`),
        figure(`Measured, ${figures.unit}`),
        figure(`Difference, ${figures.unit}`),
        figure('Measuring error'),
        { title: 'Measured on, by' },
        { title: 'Note' },
      ],
      rows: gapRows(study, figures).map((row) => ({
        cells: [
          row.result,
          row.pair,
          row.pose,
          row.predicted,
          row.measured,
          row.difference,
          row.measuringError,
          row.who,
          row.note,
        ],
      })),
    },
    {
      kind: 'text',
      text: 'Measuring error: the worst case of the ± of all values that the file gives one, at that pose. Values that nobody measured have no ±.',
    },
  ];
  if (suspects.length > 0)
    blocks.push(
      { kind: 'text', text: SUSPECTS_MEAN },
      {
        kind: 'table',
        columns: [
          { title: 'Value' },
          figure('In the file'),
          figure('Most probable change'),
          figure(`Effect on each gap that differs, ${figures.unit}`),
        ],
        rows: suspects.map((cells) => ({ cells })),
      },
    );
  if (others.length > 0) blocks.push({ kind: 'list', items: others });
  return [{ title: 'Mock-up', blocks }];
}
