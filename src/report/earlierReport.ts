import { z } from 'zod';

export const REPORT_FORMAT = 'daylight.report';
export const REPORT_VERSION = 1;

/** What a comparison reads of an earlier report. */
const schema = z.object({
  format: z.literal(REPORT_FORMAT),
  version: z.literal(REPORT_VERSION),
  date: z.string(),
  designHash: z.string(),
  inputs: z.array(
    z.object({
      path: z.string(),
      typed: z.unknown().optional(),
      value: z.unknown(),
    }),
  ),
  findings: z.object({
    verdict: z.string(),
    pairs: z.array(
      z.object({
        a: z.string(),
        b: z.string(),
        labels: z.tuple([z.string(), z.string()]),
        state: z.string(),
        worst: z.object({ marginMm: z.number().nullable(), errorMm: z.number().nullable() }).nullable(),
      }),
    ),
  }),
});

/** An earlier report of the same corner. */
export type EarlierReport = z.infer<typeof schema>;

/**
 * Reads the JSON text of an earlier report. Throws an Error whose message names the field at fault and what is needed.
 */
export function readEarlierReport(text: string): EarlierReport {
  let json: unknown;
  try {
    json = JSON.parse(text);
  } catch {
    throw new Error('it is not JSON. Give the report.json of an earlier report.');
  }
  const read = schema.safeParse(json);
  if (read.success) return read.data;
  const [{ path, message }] = read.error.issues;
  throw new Error(
    `${path.length === 0 ? '' : `${path.join('.')}: `}${message}. Give the report.json of an earlier report.`,
  );
}
