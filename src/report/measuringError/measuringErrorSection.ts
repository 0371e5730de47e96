import type { Block, Section } from '../content.ts';
import type { Figures } from '../figures.ts';
import {
  MEASURING_ERROR_MEANS,
  type MeasuringErrorInWords,
  NO_PLUS_MINUS,
  type PairErrorInWords,
} from './measuringErrorInWords.ts';

const STUDY_ALL =
  'Other pairs were not studied. The option --measuring-error studies all pairs, as does Study all pairs on the workbench.';

/** Largest number of values listed for a pair. */
const MOST_VALUES = 8;

/** Section on what the ± of the measured values can take from each clearance. Empty without a study. */
export function measuringErrorSections(
  study: MeasuringErrorInWords | undefined,
  figures: Figures,
): Section[] {
  if (study === undefined) return [];
  const { pairs, again, others, among, hasPlusMinus } = study;
  const title = among === undefined ? 'Measuring error' : 'Measuring error of the studied pairs';
  if (!hasPlusMinus) return [{ title, blocks: [{ kind: 'text', text: `Unknown. ${NO_PLUS_MINUS}` }] }];
  const figure = (title: string) => ({ title, figure: true });
  const valueColumns = [{ title: 'Value' }, figure('In the file'), figure('±'), { title: '± from' }];
  const blocks: Block[] = [
    { kind: 'text', text: MEASURING_ERROR_MEANS.join(' ') },
    {
      kind: 'table',
      columns: [
        { title: 'State' },
        { title: 'Pair' },
        figure(`Clearance, ${figures.unit}`),
        figure('Margin at least'),
        figure('Worst case'),
        figure('Root sum square'),
      ],
      rows: pairs.map(({ state, label, clearance, margin, hasPlusMinus, worstCase, rootSumSquare }) => ({
        cells: [
          state,
          label,
          clearance,
          margin,
          ...(hasPlusMinus ? [worstCase, rootSumSquare] : ['unknown', 'unknown']),
        ],
      })),
    },
  ];
  if (again !== undefined)
    blocks.push(
      { kind: 'text', text: again.title },
      {
        kind: 'table',
        columns: [...valueColumns, figure(`Adds, ${figures.unit}`), figure('Pairs')],
        rows: again.values.map(({ name, inFile, plusMinus, from, adds, pairs: count }) => ({
          cells: [name, inFile, plusMinus, from, adds, count],
        })),
      },
    );
  for (const pair of pairs.filter(({ isWithin }) => isWithin === true)) {
    blocks.push({ kind: 'text', text: [`${pair.label}, ${pair.state}.`, ...pair.verified].join(' ') });
    if (pair.taking.length > 0) blocks.push(takingTable(pair, figures));
  }
  if (others.length > 0) blocks.push({ kind: 'list', items: [...others] });
  if (among !== undefined) blocks.push({ kind: 'text', text: STUDY_ALL });
  return [{ title, blocks }];
}

/** The values whose ± takes most of a pair's clearance. */
const takingTable = ({ taking }: PairErrorInWords, figures: Figures): Block => ({
  kind: 'table',
  columns: [
    { title: 'Value' },
    { title: 'In the file', figure: true },
    { title: '±', figure: true },
    { title: `Takes, ${figures.unit}`, figure: true },
    { title: 'If it is' },
  ],
  rows: taking
    .slice(0, MOST_VALUES)
    .map(({ name, inFile, plusMinus, takes, end }) => ({ cells: [name, inFile, plusMinus, takes, end] })),
});
