import type { InputRecord } from '../design/design.ts';
import { REPORT_FORMAT, REPORT_VERSION } from './earlierReport.ts';
import { findingsObject } from './findingsJson.ts';
import { jsonHead } from './jsonHead.ts';
import type { ReportInput } from './reportInput.ts';

/** An input of the file in a report. */
const inputObject = ({ path, typed, value, plusMinus, assumed }: InputRecord) => ({
  path,
  ...(typed === undefined ? {} : { typed }),
  value,
  ...(plusMinus === undefined ? {} : { plusMinus: plusMinus.amount }),
  ...(assumed ? { assumed } : {}),
});

/**
 * The report as JSON text: the findings and every input, to compare a later report with. The format is described in
 * public/results-format.md. The text is the same for the same corner apart from the date.
 */
export function reportJson(input: ReportInput): string {
  const { design, result, version, date } = input;
  const object = {
    ...jsonHead(REPORT_FORMAT, REPORT_VERSION, version, result.designHash, design.corner),
    date,
    inputs: design.inputs.map(inputObject),
    findings: findingsObject(input),
  };
  return `${JSON.stringify(object, null, 2)}\n`;
}
