import { zipSync } from 'fflate';
import { version } from '../../../package.json';
import { buildContent } from '../../report/buildContent.ts';
import { figuresIn } from '../../report/figures.ts';
import { reportHtml } from '../../report/html.ts';
import { reportMarkdown } from '../../report/markdown.ts';
import type { Paper } from '../../report/pdf/paper.ts';
import { reportJson } from '../../report/reportJson.ts';
import { tablesCsv } from '../../report/tablesCsv.ts';
import { download, fileNameOf } from '../kit/download.ts';
import { limitsFor } from '../sheets/limits/limitsStore.ts';
import { foundFor, useMeasuringError } from '../sheets/measuringError/measuringErrorStore.ts';
import { useCorner } from '../state/cornerStore.ts';
import type { ReportParts } from '../state/engine.ts';
import { useSaveState } from '../state/keep/saveState.ts';
import type { Session } from '../state/session.ts';
import { useView } from '../state/viewStore.ts';
import { checkBolts } from '../workers/fit/checkBolts.ts';
import { mockupForReport } from '../workers/mockup/compareMockup.ts';
import { makeDrawingsPdf, makePdf } from '../workers/pdf/makePdf.ts';

export type ReportForm = 'html' | `pdf ${Paper}` | 'markdown' | 'csv' | 'json';
export type DrawingsForm = `drawings ${Paper}`;

/** Whether a form is of the drawings and not of the report. */
export const isDrawings = (form: ReportForm | DrawingsForm): form is DrawingsForm =>
  form === 'drawings A4' || form === 'drawings Letter';

/** Makes the report of the corner in a form, with the studies that are done, and saves it, or shows why there is none. */
export async function saveReport(session: Session, form: ReportForm): Promise<void> {
  const { unit } = useView.getState();
  const report = await session.report(async (corner) => ({
    mockup: await mockupForReport(corner),
    measuringError: foundFor(useMeasuringError.getState().state, corner.design.hash)?.[unit],
    limits: limitsFor(corner, unit),
    bolts: await checkBolts(corner.design.corner, unit).result,
  }));
  if (report.kind === 'refused')
    return useSaveState.setState({ notSaved: `there is no report: ${report.why}.` });
  try {
    const { data, ending, type } = await written(report, form);
    download(`${report.name}${ending}`, new Blob([data], { type }));
  } catch (error) {
    useSaveState.setState({ notSaved: `the report could not be written: ${(error as Error).message}.` });
  }
}

/** Saves the drawings of the corner on screen as PDF, or shows why there are none. */
export async function saveDrawings(form: DrawingsForm): Promise<void> {
  const { corner } = useCorner.getState();
  if (corner === undefined) return;
  const { design, solids } = corner;
  const { unit } = useView.getState();
  const paper = form === 'drawings A4' ? 'A4' : 'Letter';
  try {
    const date = new Date().toISOString();
    const bytes = await makeDrawingsPdf({ design, solids, unit, paper, version, date });
    download(
      `${fileNameOf(design.corner.name)}-drawings.pdf`,
      new Blob([new Uint8Array(bytes)], { type: 'application/pdf' }),
    );
  } catch (error) {
    useSaveState.setState({ notSaved: `the drawings could not be made: ${(error as Error).message}.` });
  }
}

interface Written {
  data: string | Uint8Array<ArrayBuffer>;
  ending: string;
  /** Media type. */
  type: string;
}

async function written({ input, pictures }: ReportParts, form: ReportForm): Promise<Written> {
  switch (form) {
    case 'html':
      return { data: reportHtml(input, pictures), ending: '.html', type: 'text/html' };
    case 'markdown':
      return { data: reportMarkdown(input, pictures), ending: '.md', type: 'text/markdown' };
    case 'json':
      return { data: reportJson(input), ending: '.json', type: 'application/json' };
    case 'csv': {
      const tables = tablesCsv(input, figuresIn(input.unit));
      const files = tables.map(({ name, data }) => [name, new TextEncoder().encode(data)] as const);
      const data = zipSync(Object.fromEntries(files), { mtime: new Date(input.date) });
      return { data: new Uint8Array(data), ending: '-tables.zip', type: 'application/zip' };
    }
    case 'pdf A4':
    case 'pdf Letter': {
      const paper = form === 'pdf A4' ? 'A4' : 'Letter';
      const bytes = await makePdf(buildContent(input, pictures), paper, input.date);
      return { data: new Uint8Array(bytes), ending: '.pdf', type: 'application/pdf' };
    }
  }
}
