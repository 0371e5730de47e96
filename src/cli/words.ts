import { assetRows } from '../report/assetRows.ts';
import { counted, type Figures } from '../report/figures.ts';
import type { Checked } from '../report/reportInput.ts';
import { pairTable } from '../report/table.ts';
import { countsInWords, treatmentCounts } from '../report/treatment.ts';
import { treatmentText } from '../report/treatmentText.ts';
import { verdictSentence, verdictWords } from '../report/verdict.ts';
import type { UnitChoice } from '../units/formatLength.ts';
import { visible } from '../units/plainText.ts';
import type { Typed } from './options.ts';

/** "Gravel kit car, front left corner: 5 bodies", then the number of pairs, and of pairs by treatment, then the assets. */
export function heading({ design, solids, result, findings }: Checked): string {
  const { name, side } = design.corner;
  const pairs = countsInWords(treatmentCounts(result.pairs, findings.unchecked));
  return [
    `${visible(name)}, front ${side} corner: ${counted(solids.length, 'body', 'bodies')}`,
    pairs,
    ...assetRows(design).map((row) => row.join(': ')),
  ].join('\n');
}

/** The pairs by margin; with `--all` also every pair by treatment. */
export function pairLines(checked: Checked, typed: Typed, unit: UnitChoice): string[] {
  const all = typed.values.has('all');
  return [
    pairTable(checked, unit, all || typed.values.has('far')),
    ...(all ? ['', treatmentText(checked, unit)] : []),
  ];
}

/** Last line of a command's output. */
export const GEOMETRY_ONLY =
  'Geometry only: mock up the assembly and move it through its travel by hand before the vehicle runs.';

/** The verdict, then `GEOMETRY_ONLY`. */
export function summary(checked: Checked, figures: Figures): string {
  const { verdict } = checked.findings;
  const state = verdict === 'incomplete' ? 'unknown' : verdict;
  return [
    visible(`${verdictWords(state, checked.design)}: ${verdictSentence(checked, figures)}`),
    GEOMETRY_ONLY,
  ].join('\n');
}
