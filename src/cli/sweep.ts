import { spacingInWords } from '../report/betweenSteps.ts';
import { figuresIn } from '../report/figures.ts';
import { findingsJson } from '../report/findingsJson.ts';
import { limitTable } from '../report/limitTable.ts';
import { lockedOutParts } from '../report/lockedOut.ts';
import { resultsJson } from '../report/resultsJson.ts';
import type { Command } from './command.ts';
import { programVersion } from './context.ts';
import { exitOf, measureSweep, SWEEP_OPTIONS } from './measure.ts';
import { required, unitOf } from './options.ts';
import { heading, pairLines, summary } from './words.ts';
import { checkFolder, writeFiles } from './writeFiles.ts';

export const sweep: Command = {
  name: 'sweep',
  operands: 'FILE [--out DIR]',
  summary: 'measure every pair over all travel and steering',
  details: [
    'Measures at the steps, then proves the poses between them.',
    'With --out, writes findings.json and results.json (format: public/results-format.md).',
  ],
  options: [...SWEEP_OPTIONS, 'unit', 'out', 'far', 'all', 'json'],
  async run(typed, context) {
    const file = required('the corner file', typed.file);
    unitOf(typed);
    const folder = typed.values.get('out');
    if (folder !== undefined) await checkFolder(folder);
    const measured = await measureSweep(file, typed, context);
    const version = await programVersion();
    const findings = findingsJson(measured, version);
    if (folder !== undefined)
      await writeFiles(
        folder,
        [
          { name: 'findings.json', data: findings },
          { name: 'results.json', data: resultsJson(measured, version) },
        ],
        context.signal,
      );
    const unit = unitOf(typed, measured.design.corner.unit);
    const figures = figuresIn(unit);
    if (typed.values.has('json')) context.print(findings.trimEnd());
    else
      context.print(
        [
          heading(measured),
          '',
          ...limitTable(measured, figures),
          `Worst case of each pair, in ${figures.unitName}:`,
          ...pairLines(measured, typed, unit),
          '',
          summary(measured, figures),
          ...lockedOutParts(measured, figures).map((part) => `  not proven: ${part}`),
          spacingInWords(measured, figures),
        ].join('\n'),
      );
    return exitOf(measured.findings);
  },
};
