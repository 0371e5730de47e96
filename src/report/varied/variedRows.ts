import type { Corner } from '../../design/schema.ts';
import type { Verdict } from '../../studies/vary/trials.ts';
import type { VariedCell } from '../../studies/vary/variedCell.ts';
import type { Figures } from '../figures.ts';
import { limitLeft, limitName } from '../limitRows.ts';
import { obstacleName, obstaclesOf, reasonInWords, trialName } from './obstacles.ts';
import { resultInWords } from './variedTable.ts';

/** What came of one value, for a table that is read on a screen. */
export interface VariedRow {
  /** The value as people write it. */
  value: string;
  verdict: Verdict;
  /** "fits", "✕ touches", "✕ binds", "◣ tight", "? unknown", "not built". */
  result: string;
  /**
   * The pair, joint or damper that fails and how much is missing, or the pair that comes nearest and how much is left, or the
   * joints and dampers where no pair is checked; then what else fails.
   */
  lines: readonly string[];
}

/** A row for each value of one axis, in the order of its values. */
export function variedRows(cells: readonly VariedCell[], corner: Corner, figures: Figures): VariedRow[] {
  return cells.map((cell) => ({
    value: cell.values[0].label,
    verdict: cell.tried.verdict,
    result: resultInWords(cell),
    lines: cell.tried.verdict === 'fits' ? nearest(cell, figures) : failing(cell, corner, figures),
  }));
}

function nearest({ tried }: VariedCell, figures: Figures): string[] {
  const [pair] = tried.pairs;
  if (pair === undefined)
    return tried.limits.map((limit) => `${limitName(limit)}: ${limitLeft(limit, figures)} left`);
  if (pair.state === 'far') return ['all are far'];
  return [`${trialName(pair)} has ${figures.least(pair.leastMarginMm)} ${figures.unit} more than its target`];
}

function failing({ tried }: VariedCell, corner: Corner, figures: Figures): string[] {
  const others = obstaclesOf(tried).slice(1).map(obstacleName);
  return [
    reasonInWords(tried, corner, figures),
    ...(others.length === 0 ? [] : [`and ${others.join(', ')}`]),
  ];
}
