import type { Corner } from '../../design/schema.ts';
import type { PairTrial } from '../../studies/vary/pairTrial.ts';
import type { VariedCell } from '../../studies/vary/variedCell.ts';
import type { Study } from '../../studies/vary/vary.ts';
import { visible } from '../../units/plainText.ts';
import { stateInWords } from '../content.ts';
import type { Figures } from '../figures.ts';
import { failingHeading, limitLeft, limitName } from '../limitRows.ts';
import {
  obstacleName,
  obstaclePlace,
  obstacleState,
  obstaclesOf,
  reasonInWords,
  trialName,
} from './obstacles.ts';

/** A table as lines for a terminal. `right`: indices of the columns that are aligned right. */
export function textTable(titles: readonly string[], rows: readonly string[][], right: ReadonlySet<number>) {
  const widths = titles.map((title, i) => Math.max(title.length, ...rows.map((row) => row[i].length)));
  return [titles, ...rows].map((row) =>
    row
      .map((cell, i) => (right.has(i) ? cell.padStart(widths[i]) : cell.padEnd(widths[i])))
      .join('  ')
      .trimEnd(),
  );
}

/** "fits", "✕ touches", "✕ binds", "◣ tight", "? unknown", "not built". */
export function resultInWords({ tried }: VariedCell): string {
  if (tried.verdict === 'fits') return 'fits';
  if (tried.problems.length > 0) return 'not built';
  const [worst] = obstaclesOf(tried);
  return stateInWords(worst === undefined ? 'unknown' : obstacleState(worst));
}

/**
 * A line for each value of one axis, with the pair, joint or damper that fails, or else the pair with the least margin.
 * Lines below it give the place and what else fails.
 */
export function variedTable({ axes, cells }: Study, corner: Corner, figures: Figures): string {
  const rows = cells.map((cell) => [
    visible(cell.values[0].label),
    resultInWords(cell),
    ...worstCells(cell, figures),
  ]);
  const titles = [axes[0].title, 'Result', failingHeading(corner), 'Clearance', 'Target', 'Left over'];
  const [head, ...lines] = textTable(titles, rows, new Set([3, 4, 5]));
  const indent = ' '.repeat(Math.max(titles[0].length, ...rows.map(([label]) => label.length)) + 2);
  return [
    head,
    ...lines.flatMap((line, c) => [
      line,
      ...detailLines(cells[c], corner, figures).map((text) => indent + visible(text)),
    ]),
  ].join('\n');
}

/** The obstacle, else the pair with the least margin, or a limit if no pair is checked. */
function worstCells({ tried }: VariedCell, figures: Figures): string[] {
  const [obstacle] = obstaclesOf(tried);
  const [pair] = tried.pairs;
  const [limit] = tried.limits;
  if (obstacle?.kind === 'pair' || (obstacle === undefined && pair !== undefined))
    return pairCells(obstacle?.pair ?? pair, figures);
  const shown = obstacle?.limit ?? limit;
  return shown === undefined
    ? ['', '', '', '']
    : [visible(limitName(shown)), '', '', limitLeft(shown, figures) || '–'];
}

function pairCells(pair: PairTrial, figures: Figures): string[] {
  const { state, targetMm, allowanceMm, leastMarginMm, worst } = pair;
  const left =
    state === 'far' ? 'far' : state === 'touches' || state === 'unknown' ? '–' : figures.least(leastMarginMm);
  return [
    visible(trialName(pair)),
    worst === undefined ? '' : figures.withError(worst.clearanceMm, worst.errorMm),
    figures.given(targetMm + allowanceMm),
    left,
  ];
}

function detailLines({ tried }: VariedCell, corner: Corner, figures: Figures): string[] {
  if (tried.verdict === 'fits') return [];
  const [worst, ...others] = obstaclesOf(tried);
  if (worst === undefined) return [reasonInWords(tried, corner, figures)];
  const place = obstaclePlace(worst, tried.corner ?? corner, figures);
  return [
    ...(place === '' ? [] : [place]),
    ...(others.length === 0 ? [] : [`and ${others.map(obstacleName).join(', ')}`]),
  ];
}
