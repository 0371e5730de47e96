import type { InputRecord } from '../design/design.ts';
import type { Block, Section } from './content.ts';
import type { EarlierReport } from './earlierReport.ts';
import { type Figures, MM_PER_UNIT } from './figures.ts';
import { valueInWords } from './inputSection.ts';
import { numberedRows } from './pairRow.ts';
import type { ReportInput } from './reportInput.ts';

/** Smaller changes of a margin do not show, mm. */
const LEAST_CHANGE_MM = 0.005;

/** Section on what has changed since an earlier report: inputs, and the margin of each pair. None without one. */
export function againstSections(input: ReportInput, figures: Figures): Section[] {
  const { against } = input;
  if (against === undefined) return [];
  const inputs = changedInputs(input.design.inputs, against, figures);
  const margins = changedMargins(input, against, figures);
  const blocks: Block[] = [
    {
      kind: 'text',
      text: `Earlier report: ${against.date}, design ${against.designHash.slice(0, 12)}, ${against.findings.verdict}.`,
    },
    inputs.length === 0
      ? { kind: 'text', text: 'No input has changed.' }
      : {
          kind: 'table',
          columns: [{ title: 'Input' }, { title: 'Earlier' }, { title: 'Now' }],
          rows: inputs.map((cells) => ({ cells })),
        },
    margins.length === 0
      ? { kind: 'text', text: 'No margin has changed.' }
      : {
          kind: 'table',
          columns: [
            { title: 'State' },
            { title: 'Pair' },
            { title: 'Earlier' },
            { title: `Margin, ${figures.unit}, earlier`, figure: true },
            { title: 'Now', figure: true },
            { title: 'Change', figure: true },
          ],
          rows: margins.map((cells) => ({ cells })),
        },
  ];
  return [{ title: 'Changes since the earlier report', id: 'changes', blocks }];
}

function changedInputs(inputs: readonly InputRecord[], earlier: EarlierReport, figures: Figures): string[][] {
  const now = new Map(inputs.map((one) => [one.path, one]));
  const then = new Map(earlier.inputs.map((one) => [one.path, one]));
  const shown = (path: string, value: unknown): string => {
    const known = now.get(path);
    if (typeof value === 'number' && known !== undefined) return valueInWords({ ...known, value }, figures);
    return typeof value === 'string' ? value : JSON.stringify(value);
  };
  return [...new Set([...then.keys(), ...now.keys()])].flatMap((path) => {
    const [before, after] = [then.get(path), now.get(path)];
    if (before !== undefined && after !== undefined && isSame(before.value, after.value)) return [];
    return [
      [
        path,
        before === undefined ? 'not in the file' : shown(path, before.value),
        after === undefined ? 'not in the file' : shown(path, after.value),
      ],
    ];
  });
}

const isSame = (one: unknown, other: unknown): boolean => JSON.stringify(one) === JSON.stringify(other);

/** Pairs whose state or margin differs, those that lost most first. */
function changedMargins(input: ReportInput, earlier: EarlierReport, figures: Figures): string[][] {
  const keyOf = (a: string, b: string) => JSON.stringify([a, b]);
  const then = new Map(earlier.findings.pairs.map((pair) => [keyOf(pair.a, pair.b), pair]));
  const per = MM_PER_UNIT[figures.unit];
  const found = numberedRows(input, figures).flatMap(({ row }) => {
    const { a, b } = row.pair;
    const key = keyOf(input.solids[a].id, input.solids[b].id);
    const before = then.get(key);
    then.delete(key);
    const now = row.finding.worst;
    const was = before?.worst?.marginMm ?? undefined;
    const change = now === undefined || was === undefined ? undefined : now.marginMm - was;
    const isEqual =
      before?.state === row.finding.state && (change === undefined || Math.abs(change) < LEAST_CHANGE_MM);
    if (isEqual) return [];
    return [
      {
        change: change ?? 0,
        cells: [
          row.state,
          row.name,
          before?.state ?? 'not in the report',
          was === undefined ? '' : figures.margin(was, 0),
          row.margin,
          change === undefined ? '' : figures.signedFine(Math.round((change / per) * 1e6) * 1e-6 * per),
        ],
      },
    ];
  });
  const gone = [...then.values()].map(({ labels, state, worst }) => ({
    change: 0,
    cells: [
      'not in the corner',
      labels.join(' ↔ '),
      state,
      worst?.marginMm == null ? '' : figures.margin(worst.marginMm, 0),
      '',
      '',
    ],
  }));
  return [...found.toSorted((one, other) => one.change - other.change), ...gone].map(({ cells }) => cells);
}
