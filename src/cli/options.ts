import { parseArgs } from 'node:util';
import { suggest } from '../design/suggest.ts';
import { PAPERS, type Paper } from '../report/pdf/paper.ts';
import { DEFAULT_SETTINGS } from '../sweep/result.ts';
import { parseLength } from '../units/parseLength.ts';
import { EXIT, Failure } from './exit.ts';

export interface OptionSpec {
  /** Placeholder of the value in the help; absent for a switch. */
  value?: string;
  help: string;
  /** Default value, as the help shows it; a command may have its own. */
  defaultText?: string;
}

const { travelSteps, steerSteps, limitMm, chordToleranceMm } = DEFAULT_SETTINGS;

export const OPTIONS = {
  'travel-steps': {
    value: 'N',
    help: 'steps from full droop to full bump, 3 to 2001',
    defaultText: `${travelSteps}`,
  },
  'steer-steps': { value: 'N', help: 'steps from lock to lock, 3 to 2001', defaultText: `${steerSteps}` },
  'clocking-step': {
    value: 'DEG',
    help: 'step between audited clockings, 1 to 90 degrees',
    defaultText: '5',
  },
  limit: {
    value: 'LENGTH',
    help: 'largest clearance to measure, 1 to 1000 mm',
    defaultText: `${limitMm} mm`,
  },
  chord: {
    value: 'LENGTH',
    help: 'largest mesh error of a curved surface, 0.005 to 2 mm',
    defaultText: `${chordToleranceMm} mm`,
  },
  field: {
    value: 'PART.FIELD',
    help: 'field to vary: the id of a part and the name of its field, wheel.backspacing',
  },
  from: { value: 'A', help: "first value; a length without a unit is in the file's unit" },
  to: { value: 'B', help: 'last value' },
  step: { value: 'S', help: 'step between two values' },
  and: { value: 'PART.FIELD', help: 'second field; each of its values is combined with each of the first' },
  'and-from': { value: 'A', help: 'first value of the second field' },
  'and-to': { value: 'B', help: 'last value of the second field' },
  'and-step': { value: 'S', help: 'step between two values of the second field' },
  tyres: { value: 'LIST', help: 'a text file with a tyre on each line: 205/55R16, 37x12.5R17LT' },
  wheels: { value: 'LIST', help: 'a text file with a wheel on each line: 17x9x5 1/2 (backspacing last)' },
  within: {
    value: 'S',
    help: 'largest distance between the two values of a border',
    defaultText: '0.1 mm, 1/64 in or 0.1°',
  },
  pair: {
    value: 'A:B',
    help: 'ids of the two parts of a pair, such as wheel:tieRodEnd; by default all that the command studies',
  },
  'measuring-error': { help: 'study the measuring error of all pairs and not only of the tightest' },
  strict: { help: 'exit with 1 also if a clear pair is within the measuring error' },
  bleed: { value: 'DEG', help: "largest angle of the bleed screw from straight above the caliper's middle" },
  caliper: { value: 'ahead|behind', help: 'required side of the axle for the caliper' },
  'caliper-range': { value: 'A,B', help: 'allowed clockings of the caliper, degrees from A to B' },
  'hub-range': { value: 'A,B', help: 'allowed clockings of the hub, degrees from A to B' },
  margin: { value: 'LENGTH', help: 'least margin beyond targets and allowances', defaultText: '0 mm' },
  unsplit: {
    value: 'LIST',
    help: 'bolts that must be on one side of a plate of the upright: caliper:upperLeg,hub:ID',
  },
  mounting: {
    value: 'WHICH',
    help: 'drawn, mirrored (caliper), bolts-turned (hub bolts from the other side), both, or all',
    defaultText: 'drawn',
  },
  candidates: { value: 'N', help: 'largest number of candidates, 1 to 50', defaultText: '5' },
  swept: { help: 'sweep the candidates over all travel and steering, and rank them by the result' },
  apply: { value: 'N', help: 'write the corner with the clockings of candidate N; needs --save' },
  save: { value: 'FILE', help: 'corner file to write; the files that it lists are written beside it' },
  threads: { value: 'N', help: 'worker threads, 1 to 64', defaultText: 'one for each core' },
  unit: {
    value: 'mm|in',
    help: 'unit of the figures shown',
    defaultText: "the file's unit; mm if it names none",
  },
  out: { value: 'DIR', help: 'folder for the files; created if it does not exist' },
  process: {
    value: 'plasma|laser',
    help: 'how the plates are cut: adds warnings of holes that are too small or too near an edge',
  },
  kerf: { value: 'LENGTH', help: 'width of the cut, 0.01 to 10 mm: adds how far to move the tool' },
  'bend-radius': {
    value: 'LENGTH',
    help: 'inside radius of the bends, 0 to 100 mm; without it, flat lengths are those of sharp folds',
  },
  'k-factor': {
    value: 'K',
    help: 'place of the neutral axis in a bend, as a fraction of the thickness from the inside, 0 to 0.5; needs --bend-radius',
    defaultText: '0.5',
  },
  stl: { value: 'DIR', help: 'folder for the STL files; created if it does not exist' },
  far: { help: 'also list the far and joined pairs one by one' },
  all: { help: 'list every pair: as --far, with zones, and the reason for each pair that is not checked' },
  every: {
    value: 'LENGTH',
    help: 'step of travel and of the rack in the alignment tables, 1 to 1000 mm',
    defaultText: '25 mm, or 1 in in a file in inches',
  },
  alignment: { help: 'list the alignment alone, without a sweep' },
  contact: { help: 'find stops that avoid contact alone, without targets and allowances' },
  stops: { value: 'WHICH', help: 'write the corner with these stops: lock, travel or both; needs --save' },
  'bump-stop': {
    value: 'LENGTH',
    help: "length between the damper's mounts at which the bump stop is solid: gives the travel",
  },
  strap: {
    value: 'LENGTH',
    help: "length between the damper's mounts at which the strap in droop is tight: gives the travel",
  },
  travel: {
    value: 'A..B',
    help: "range of travel, bump positive, lengths in the file's unit: -100mm..100mm",
    defaultText: 'all of the file',
  },
  steer: { value: 'A..B', help: 'range of steer, -1 to 1 of lock: -0.5..1', defaultText: '-1..1' },
  growth: { value: 'LENGTH', help: "growth of the tyre beyond the file's, 0 to 200 mm", defaultText: '0 mm' },
  'keep-free': { value: 'LENGTH', help: 'kept free around tyre and wheel, 0 to 200 mm', defaultText: '0 mm' },
  accuracy: {
    value: 'LENGTH',
    help: 'largest excess of the solid, 2 to 100 mm; half of it takes four times as long',
    defaultText: '12 mm',
  },
  planes: {
    value: 'LIST',
    help: 'fender or rail planes, ";" between them: "z=900 mm;-y=500 mm;0,600,900:0,0.2,1" (point:normal)',
  },
  format: { value: 'LIST', help: 'files of the solid: stl, 3mf, glb', defaultText: 'all three' },
  against: { value: 'OLD.json', help: 'compare with the report.json of an earlier report of this corner' },
  pdf: { help: 'write the report as PDF too' },
  paper: { value: 'A4|Letter', help: 'size of the sheets', defaultText: 'A4' },
  csv: { help: 'print the alignment at every travel and steering step as CSV' },
  json: { help: 'print the findings as JSON instead of text' },
  progress: { help: 'report progress on standard error even if it is not a terminal' },
  help: { help: 'show this help' },
} as const satisfies Record<string, OptionSpec>;
export type OptionName = keyof typeof OPTIONS;

/** The arguments of a command. */
export interface Typed {
  /** The file operand. */
  file: string | undefined;
  values: ReadonlyMap<OptionName, string>;
}

const usage = (message: string) => new Failure(EXIT.usage, message);

/**
 * Reads the arguments of a command that has the options `known`. Throws a usage Failure for an unknown option (with the
 * nearest known one), an option given twice, a missing value, a switch with a value, and a second file.
 */
export function readTyped(command: string, args: string[], known: readonly OptionName[]): Typed {
  const specs = (name: OptionName): OptionSpec => OPTIONS[name];
  const { tokens } = parseArgs({
    args,
    options: Object.fromEntries(
      known.map((name) => [
        name,
        { type: specs(name).value === undefined ? ('boolean' as const) : ('string' as const) },
      ]),
    ),
    allowPositionals: true,
    strict: false,
    tokens: true,
  });
  const values = new Map<OptionName, string>();
  const files: string[] = [];
  for (const token of tokens) {
    if (token.kind === 'positional') files.push(token.value);
    if (token.kind !== 'option') continue;
    const name = token.rawName === '-h' ? 'help' : known.find((one) => `--${one}` === token.rawName);
    if (name === undefined) {
      const near = suggest(
        token.rawName,
        known.map((one) => `--${one}`),
      );
      throw usage(`${token.rawName} is not an option of "daylight ${command}".${near}`);
    }
    if (values.has(name)) throw usage(`--${name} is given twice`);
    values.set(name, optionValue(name, specs(name).value, token));
  }
  if (files.length > 1)
    throw usage(`"daylight ${command}" takes one file, not ${files.length}: ${files.join(', ')}`);
  return { file: files[0], values };
}

function optionValue(
  name: OptionName,
  placeholder: string | undefined,
  token: { value?: string | undefined; inlineValue?: boolean | undefined },
): string {
  if (placeholder === undefined) {
    if (token.value !== undefined) throw usage(`--${name} takes no value, but "${token.value}" is given`);
    return '';
  }
  const missing =
    token.value === undefined || token.value === '' || (!token.inlineValue && /^--\D/.test(token.value));
  if (missing) throw usage(`--${name} needs a value: --${name} ${placeholder}`);
  return token.value ?? '';
}

/** Value of a whole-number option, or `otherwise` if it is not typed. Throws a usage Failure outside the bounds. */
export function wholeNumber(
  { values }: Typed,
  name: OptionName,
  least: number,
  most: number,
  otherwise: number,
): number {
  const typed = values.get(name);
  if (typed === undefined) return otherwise;
  const value = /^\d+$/.test(typed) ? Number(typed) : Number.NaN;
  if (value >= least && value <= most) return value;
  throw usage(`--${name}: "${typed}" is not allowed. Give a whole number from ${least} to ${most}.`);
}

/** Value of a length option, mm (also if typed without a unit), or `otherwise` if it is not typed. Throws a usage Failure outside the bounds. */
export function lengthMm(
  { values }: Typed,
  name: OptionName,
  leastMm: number,
  mostMm: number,
  otherwise: number,
): number {
  const typed = values.get(name);
  if (typed === undefined) return otherwise;
  const allowed = `Give a length from ${leastMm} to ${mostMm} mm.`;
  let mm: number;
  try {
    ({ mm } = parseLength(typed, { unit: 'mm' }));
  } catch (error) {
    throw usage(`--${name}: ${(error as Error).message}. ${allowed}`);
  }
  if (mm >= leastMm && mm <= mostMm) return mm;
  throw usage(`--${name}: "${typed}" is not allowed. ${allowed}`);
}

/** Value of a number option, or undefined if it is not typed. Throws a usage Failure outside the bounds. */
export function numberOf(
  { values }: Typed,
  name: OptionName,
  least: number,
  most: number,
): number | undefined {
  const typed = values.get(name);
  if (typed === undefined) return undefined;
  const value = numberIn(typed);
  if (value >= least && value <= most) return value;
  throw usage(`--${name}: "${typed}" is not allowed. Give a number from ${least} to ${most}.`);
}

/** Two numbers "A,B" with A <= B; undefined if not typed. Throws a usage Failure outside the bounds. */
export function rangeOf(
  { values }: Typed,
  name: OptionName,
  least: number,
  most: number,
): { from: number; to: number } | undefined {
  const typed = values.get(name);
  if (typed === undefined) return undefined;
  const [from, to, ...more] = typed.split(',').map(numberIn);
  if (more.length === 0 && from >= least && to <= most && from <= to) return { from, to };
  throw usage(
    `--${name}: "${typed}" is not allowed. Give two numbers from ${least} to ${most} with a comma between, the larger last.`,
  );
}

const numberIn = (typed: string): number => {
  const text = typed.trim().replace('−', '-');
  return /^[-+]?\d+(\.\d+)?$/.test(text) ? Number(text) : Number.NaN;
};

/** The unit typed, or `otherwise`, the file's unit, if none is typed. Throws a usage Failure for another unit. */
export function unitOf({ values }: Typed, otherwise: 'mm' | 'in' = 'mm'): 'mm' | 'in' {
  const typed = values.get('unit') ?? otherwise;
  if (typed === 'mm' || typed === 'in') return typed;
  throw usage(`--unit: "${typed}" is not allowed. Give mm or in.`);
}

/** The size of the sheets; A4 by default. Throws a usage Failure for any other. */
export function paperOf({ values }: Typed): Paper {
  const typed = values.get('paper') ?? 'A4';
  const paper = PAPERS.find((one) => one === typed);
  if (paper === undefined) throw usage(`--paper: "${typed}" is not allowed. Give ${PAPERS.join(' or ')}.`);
  return paper;
}

/** A required operand or option value. Throws a usage Failure if it is missing. */
export function required(what: string, value: string | undefined): string {
  if (value === undefined) throw usage(`${what} is missing`);
  return value;
}
