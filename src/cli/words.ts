import { visible } from '../design/plainText.ts';
import { counted, type Figures } from '../report/figures.ts';
import type { Checked } from '../report/reportInput.ts';
import { pairTable } from '../report/table.ts';
import { countsInWords, treatmentCounts } from '../report/treatment.ts';
import { treatmentText } from '../report/treatmentText.ts';
import { verdictSentence, verdictWords } from '../report/verdict.ts';
import type { UnitChoice } from '../units/formatLength.ts';
import type { Typed } from './options.ts';

/** "Gravel kit car, front left corner: 5 bodies", then how many pairs there are, and how many of each treatment. */
export function heading({ design, solids, result, findings }: Checked): string {
  const { name, side } = design.corner;
  const pairs = countsInWords(treatmentCounts(result.pairs, findings.unchecked));
  return `${visible(name)}, front ${side} corner: ${counted(solids.length, 'body', 'bodies')}\n${pairs}`;
}

/** The pairs by margin, and with `--all` every pair by how it is treated. */
export function pairLines(checked: Checked, typed: Typed, unit: UnitChoice): string[] {
  const all = typed.values.has('all');
  return [
    pairTable(checked, unit, all || typed.values.has('far')),
    ...(all ? ['', treatmentText(checked, unit)] : []),
  ];
}

/** The verdict, and that it is about geometry alone. */
export function summary(checked: Checked, figures: Figures): string {
  const { verdict } = checked.findings;
  const state = verdict === 'incomplete' ? 'unknown' : verdict;
  return [
    visible(`${verdictWords(state, checked.design)}: ${verdictSentence(checked, figures)}`),
    'Geometry only: mock the assembly up and take it through its travel by hand before it runs.',
  ].join('\n');
}
