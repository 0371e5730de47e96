import type { Corner } from '../../design/schema.ts';
import type { VariedCell } from '../../studies/vary/variedCell.ts';
import type { Study } from '../../studies/vary/vary.ts';
import { visible } from '../../units/plainText.ts';
import type { Figures } from '../figures.ts';
import { obstacleLeft, obstacleName, obstaclesOf, reasonInWords } from './obstacles.ts';
import { resultInWords, textTable } from './variedTable.ts';

const LETTERS = 'abcdefghijklmnopqrstuvwxyz';
const letter = (index: number): string =>
  index < LETTERS.length
    ? LETTERS[index]
    : `${letter(Math.floor(index / LETTERS.length) - 1)}${LETTERS[index % LETTERS.length]}`;

/** Reason that a cell does not fit: the pair, joint or damper, or why the corner cannot be built. */
function reasonOf({ tried }: VariedCell, corner: Corner, figures: Figures): string {
  const [worst] = obstaclesOf(tried);
  return worst === undefined ? reasonInWords(tried, corner, figures) : obstacleName(worst);
}

/**
 * Two axes as a grid: the first down, the second across. A cell is "fits", or a state with a letter. The list below the
 * grid gives for each letter the reason and the cell in which it is worst.
 */
export function variedGrid({ axes, cells }: Study, corner: Corner, figures: Figures): string {
  const [down, across] = axes;
  const reasons = new Map<string, VariedCell[]>();
  for (const cell of cells) {
    if (cell.tried.verdict === 'fits') continue;
    const reason = reasonOf(cell, corner, figures);
    reasons.set(reason, [...(reasons.get(reason) ?? []), cell]);
  }
  const names = [...reasons.keys()];
  const text = (cell: VariedCell): string =>
    cell.tried.verdict === 'fits'
      ? 'fits'
      : `${resultInWords(cell)} ${letter(names.indexOf(reasonOf(cell, corner, figures)))}`;
  const rows = down.values.map(({ label }, r) => [
    visible(label),
    ...cells.slice(r * across.values.length, (r + 1) * across.values.length).map(text),
  ]);
  const titles = ['', ...across.values.map(({ label }) => visible(label))];
  return [
    `${down.title} down, ${across.title} across:`,
    ...textTable(titles, rows, new Set()),
    ...names.map(
      (name, n) => `${letter(n)}: ${visible(legend(name, reasons.get(name) ?? [], corner, figures))}`,
    ),
  ].join('\n');
}

/** A reason with the cell in which it is worst. */
function legend(name: string, failing: readonly VariedCell[], corner: Corner, figures: Figures): string {
  const leftOf = ({ tried }: VariedCell): number => {
    const [worst] = obstaclesOf(tried);
    return worst === undefined ? Number.NaN : obstacleLeft(worst);
  };
  const [worst] = [...failing].sort((a, b) => leftOf(a) - leftOf(b) || 0);
  const words = reasonInWords(worst.tried, corner, figures);
  if (words === name) return name;
  const values = worst.values.map(({ label }) => label).join(', ');
  return failing.length === 1 ? words : `at worst, with ${values}: ${words}`;
}
