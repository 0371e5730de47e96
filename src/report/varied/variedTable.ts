import type { Corner } from '../../design/schema.ts';
import type { VariedCell } from '../../studies/vary/variedCell.ts';
import type { Study } from '../../studies/vary/vary.ts';
import { stateInWords } from '../content.ts';
import { printable } from '../escape.ts';
import type { Figures } from '../figures.ts';
import { limitInWords, notFitting, trialName, trialPlace } from './limitInWords.ts';

/** A table of text for a terminal: columns as wide as they need be, those that hold figures set to the right. */
export function textTable(titles: readonly string[], rows: readonly string[][], right: ReadonlySet<number>) {
  const widths = titles.map((title, i) => Math.max(title.length, ...rows.map((row) => row[i].length)));
  return [titles, ...rows].map((row) =>
    row
      .map((cell, i) => (right.has(i) ? cell.padStart(widths[i]) : cell.padEnd(widths[i])))
      .join('  ')
      .trimEnd(),
  );
}

/** "fits", "✕ touches", "◣ tight", "? unknown", "not built". */
export function resultInWords({ tried }: VariedCell): string {
  if (tried.verdict === 'fits') return 'fits';
  if (tried.problems.length > 0) return 'not built';
  return stateInWords(notFitting(tried)[0]?.state ?? 'unknown');
}

/**
 * Each value of one axis on a line, with the pair that fails or else comes nearest to it, and beneath it where that is and
 * what else fails.
 */
export function variedTable({ axes, cells }: Study, corner: Corner, figures: Figures): string {
  const rows = cells.map((cell) => [
    printable(cell.values[0].label),
    resultInWords(cell),
    ...pairCells(cell, figures),
  ]);
  const titles = [axes[0].title, 'Result', 'Pair', 'Clearance', 'Target', 'Left over'];
  const [head, ...lines] = textTable(titles, rows, new Set([3, 4, 5]));
  const indent = ' '.repeat(Math.max(titles[0].length, ...rows.map(([label]) => label.length)) + 2);
  return [
    head,
    ...lines.flatMap((line, c) => [
      line,
      ...beneath(cells[c], corner, figures).map((text) => indent + printable(text)),
    ]),
  ].join('\n');
}

function pairCells({ tried }: VariedCell, figures: Figures): string[] {
  const [worst] = tried.pairs;
  if (worst === undefined) return ['', '', '', ''];
  const { state, targetMm, allowanceMm, leastMarginMm } = worst;
  const left =
    state === 'far' ? 'far' : state === 'touches' || state === 'unknown' ? '–' : figures.least(leastMarginMm);
  return [
    printable(trialName(worst)),
    worst.worst === undefined ? '' : figures.withError(worst.worst.clearanceMm, worst.worst.errorMm),
    figures.given(targetMm + allowanceMm),
    left,
  ];
}

function beneath({ tried }: VariedCell, corner: Corner, figures: Figures): string[] {
  if (tried.verdict === 'fits') return [];
  if (tried.problems.length > 0 || notFitting(tried).length === 0)
    return [limitInWords(tried, corner, figures)];
  const [worst, ...others] = notFitting(tried);
  const place = trialPlace(worst, corner, figures);
  return [
    ...(place === '' ? [] : [place]),
    ...(others.length === 0 ? [] : [`and ${others.map(trialName).join(', ')}`]),
  ];
}
