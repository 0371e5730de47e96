import type { Corner } from '../../design/schema.ts';
import type { Verdict } from '../../studies/vary/trials.ts';
import type { VariedCell } from '../../studies/vary/variedCell.ts';
import type { Figures } from '../figures.ts';
import { limitLeft, limitName } from '../limitRows.ts';
import { obstacleName, obstaclesOf, reasonInWords, trialName } from './obstacles.ts';
import { resultInWords } from './variedTable.ts';

/** Result of one value, for a table on the screen. */
export interface VariedRow {
  /** The value with its unit. */
  value: string;
  verdict: Verdict;
  /** "fits", "✕ touches", "✕ binds", "◣ tight", "? unknown", "not built". */
  result: string;
  /**
   * The pair, joint or damper that fails with its shortfall, then what else fails. If the value fits: the pair with the least
   * margin, or the joints and dampers if no pair is checked.
   */
  lines: readonly string[];
}

/** A row for each value of one axis, in their order. */
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
  if (pair.state === 'far') return ['all pairs are far'];
  return [`${trialName(pair)} has ${figures.least(pair.leastMarginMm)} ${figures.unit} more than its target`];
}

function failing({ tried }: VariedCell, corner: Corner, figures: Figures): string[] {
  const others = obstaclesOf(tried).slice(1).map(obstacleName);
  return [
    reasonInWords(tried, corner, figures),
    ...(others.length === 0 ? [] : [`and ${others.join(', ')}`]),
  ];
}
