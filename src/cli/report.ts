import { join } from 'node:path';
import { boltsLines } from '../report/bolts/boltsLines.ts';
import { buildContent } from '../report/buildContent.ts';
import { type EarlierReport, readEarlierReport } from '../report/earlierReport.ts';
import { figuresIn } from '../report/figures.ts';
import { reportHtml } from '../report/html.ts';
import { reportMarkdown } from '../report/markdown.ts';
import { measuringErrorInWords } from '../report/measuringError/measuringErrorInWords.ts';
import { reportDefinition } from '../report/pdf/reportPdf.ts';
import { picturesOf, spotIds } from '../report/pictures.ts';
import type { ReportInput } from '../report/reportInput.ts';
import { reportJson } from '../report/reportJson.ts';
import { tablesCsv } from '../report/tablesCsv.ts';
import { fewerSteps } from '../studies/fewerSteps.ts';
import { alignmentOver, EVERY_MM } from '../studies/limits/alignmentStudy.ts';
import type { LimitsStudy } from '../studies/limits/limitsStudy.ts';
import { lockOutDistances } from '../studies/limits/lockOuts.ts';
import { mockupOf } from '../studies/mockup/mockup.ts';
import type { Command } from './command.ts';
import { type Context, programVersion } from './context.ts';
import { EXIT, Failure } from './exit.ts';
import {
  alignmentAtRideHeight,
  exitOf,
  type Measured,
  measureSweep,
  SWEEP_OPTIONS,
  whyUnreachable,
} from './measure.ts';
import { measuringErrorTyped } from './measuringErrorTyped.ts';
import { paperOf, required, type Typed, unitOf } from './options.ts';
import { pdfBytes } from './pdf.ts';
import { bytesOf, namingFile } from './readCorner.ts';
import { stopsTyped } from './stopsTyped.ts';
import { heading, summary } from './words.ts';
import { checkFolder, writeFiles } from './writeFiles.ts';

export const report: Command = {
  name: 'report',
  operands: 'FILE --out DIR',
  summary: 'sweep the corner and write the clearance report as HTML and Markdown',
  details: [
    'Writes report.html, report.md, report.json, and the tables pairs.csv, limits.csv, inputs.csv and alignment.csv.',
    'Also finds what moves the tightest clearances most, and if something fails, the stops that clear it.',
  ],
  options: [...SWEEP_OPTIONS, 'measuring-error', 'against', 'pdf', 'paper', 'unit', 'out'],
  async run(typed, context) {
    const file = required('the corner file', typed.file);
    const folder = required('--out DIR', typed.values.get('out'));
    unitOf(typed);
    const paper = paperOf(typed);
    await checkFolder(folder);
    const against = await earlierReport(typed.values.get('against'));
    const measured = await measureSweep(file, typed, context);
    const { corner } = measured.design;
    const unit = unitOf(typed, corner.unit);
    const mockup =
      corner.mockup === undefined
        ? undefined
        : await namingFile(file, () =>
            mockupOf(measured.design, { settings: measured.setup.settings, signal: context.signal }),
          );
    const among = typed.values.has('measuring-error') ? undefined : spotIds(measured);
    const measuringError =
      among?.length === 0
        ? undefined
        : measuringErrorInWords(await measuringErrorTyped(typed, context, among), figuresIn(unit));
    const limits = await namingFile(file, () => limitsOfReport(measured, typed, context, unit));
    const input: ReportInput = {
      ...measured,
      alignmentAtRideHeight: alignmentAtRideHeight(measured.setup),
      whyUnreachable: (travelMm, steer) => whyUnreachable(measured.setup, travelMm, steer),
      mockup,
      measuringError,
      limits,
      bolts: await namingFile(file, () => boltsLines(corner, unit)),
      against,
      unit,
      version: await programVersion(),
      date: new Date().toISOString(),
    };
    const pictures = picturesOf(input);
    const files: { name: string; data: string | Uint8Array }[] = [
      { name: 'report.html', data: reportHtml(input, pictures) },
      { name: 'report.md', data: reportMarkdown(input, pictures) },
      { name: 'report.json', data: reportJson(input) },
      ...tablesCsv(input, figuresIn(unit)),
    ];
    if (typed.values.has('pdf'))
      files.push({
        name: 'report.pdf',
        data: await pdfBytes(reportDefinition(buildContent(input, pictures), paper, input.date)),
      });
    await writeFiles(folder, files, context.signal);
    context.print(
      [
        heading(measured),
        summary(measured, figuresIn(unit)),
        ...files.map(({ name }) => `Written: ${join(folder, name)}`),
      ].join('\n'),
    );
    return exitOf(measured.findings);
  },
};

/** Reads an earlier report. Throws a Failure that names the file, what is wrong and what to give. */
async function earlierReport(file: string | undefined): Promise<EarlierReport | undefined> {
  if (file === undefined) return undefined;
  const bytes = await bytesOf(file);
  try {
    return readEarlierReport(new TextDecoder().decode(bytes));
  } catch (error) {
    throw new Failure(EXIT.badInput, `--against ${file}: ${(error as Error).message}`);
  }
}

/** Alignment, region and stops of a swept corner. */
async function limitsOfReport(
  { design, setup }: Measured,
  typed: Typed,
  context: Context,
  unit: 'mm' | 'in',
): Promise<LimitsStudy> {
  // As in the study and on the workbench, whose figures these are.
  const stops = await stopsTyped(design, typed, context, { settings: fewerSteps(setup.settings) });
  const { corner } = design;
  return { alignment: alignmentOver(corner, EVERY_MM[unit]), stops, lockOuts: lockOutDistances(corner) };
}
