import type { Corner } from '../../design/schema.ts';
import type { Verdict } from '../../studies/vary/trials.ts';
import type { VariedCell } from '../../studies/vary/variedCell.ts';
import type { Figures } from '../figures.ts';
import { limitInWords, notFitting, trialName } from './limitInWords.ts';
import { resultInWords } from './variedTable.ts';

/** What came of one value, for a table that is read on a screen. */
export interface VariedRow {
  /** The value as people write it. */
  value: string;
  verdict: Verdict;
  /** "fits", "✕ touches", "◣ tight", "? unknown", "not built". */
  result: string;
  /** The pair that fails and how much is missing, or the one that comes nearest and how much is left; then what else fails. */
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
  if (pair === undefined) return [];
  if (pair.state === 'far') return ['all are far'];
  return [`${trialName(pair)} has ${figures.least(pair.leastMarginMm)} ${figures.unit} more than its target`];
}

function failing({ tried }: VariedCell, corner: Corner, figures: Figures): string[] {
  const others = notFitting(tried).slice(1).map(trialName);
  return [limitInWords(tried, corner, figures), ...(others.length === 0 ? [] : [`and ${others.join(', ')}`])];
}
