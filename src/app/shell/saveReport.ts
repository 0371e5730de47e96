import { zipSync } from 'fflate';
import { buildContent } from '../../report/buildContent.ts';
import { figuresIn } from '../../report/figures.ts';
import { reportHtml } from '../../report/html.ts';
import { reportMarkdown } from '../../report/markdown.ts';
import { reportJson } from '../../report/reportJson.ts';
import { tablesCsv } from '../../report/tablesCsv.ts';
import { download } from '../kit/download.ts';
import { limitsFor } from '../sheets/limits/limitsStore.ts';
import type { ReportParts, ReportStudies } from '../state/engine.ts';
import { useSaveState } from '../state/keep/saveState.ts';
import type { Session } from '../state/session.ts';
import { useView } from '../state/viewStore.ts';
import { checkBolts } from '../workers/fit/checkBolts.ts';
import { mockupForReport } from '../workers/mockup/compareMockup.ts';
import { makePdf } from '../workers/pdf/makePdf.ts';

export type ReportForm = 'html' | 'pdf A4' | 'pdf Letter' | 'markdown' | 'csv' | 'json';

/** Makes the report of the corner in a form and saves it, or shows why there is none. */
export async function saveReport(
  session: Session,
  form: ReportForm,
  measuringError: ReportStudies['measuringError'],
): Promise<void> {
  const { unit } = useView.getState();
  const report = await session.report(async (corner) => ({
    mockup: await mockupForReport(corner),
    measuringError,
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
