import { stateInWords } from '../report/content.ts';
import { printable } from '../report/escape.ts';
import { counted, type Figures } from '../report/figures.ts';
import type { Checked } from '../report/reportInput.ts';
import { verdictSentence } from '../report/verdict.ts';

/** "Gravel kit car, front left corner: 5 parts, 8 pairs checked, 2 not checked". */
export function heading({ design, solids, findings }: Checked): string {
  const { name, side } = design.corner;
  const counts = [
    counted(solids.length, 'body', 'bodies'),
    `${counted(findings.pairs.length, 'pair')} checked`,
    `${findings.unchecked.length} not checked`,
  ];
  return printable(`${name}, front ${side} corner: ${counts.join(', ')}`);
}

/** The verdict, and that it is about geometry alone. */
export function summary(checked: Checked, figures: Figures): string {
  const { verdict } = checked.findings;
  const state = verdict === 'incomplete' ? 'unknown' : verdict;
  return [
    printable(`${stateInWords(state)}: ${verdictSentence(checked, figures)}`),
    'Geometry only: mock the assembly up and take it through its travel by hand before it runs.',
  ].join('\n');
}
