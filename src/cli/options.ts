import { parseArgs } from 'node:util';
import { suggest } from '../design/suggest.ts';
import { DEFAULT_SETTINGS } from '../sweep/result.ts';
import { parseLength } from '../units/parseLength.ts';
import { EXIT, Failure } from './exit.ts';

interface OptionSpec {
  /** Stands for the value in the help; absent for a switch. */
  value?: string;
  help: string;
}

const { travelSteps, steerSteps, limitMm, chordToleranceMm } = DEFAULT_SETTINGS;

export const OPTIONS = {
  'travel-steps': { value: 'N', help: `steps from full droop to full bump, 3 to 2001 (${travelSteps})` },
  'steer-steps': { value: 'N', help: `steps from lock to lock, 3 to 2001 (${steerSteps})` },
  'clocking-step': { value: 'DEG', help: 'from one audited clocking to the next, 1 to 90 (5)' },
  limit: { value: 'LENGTH', help: `measure clearances up to this, 1 to 1000 mm (${limitMm} mm)` },
  chord: { value: 'LENGTH', help: `mesh error of curved surfaces, 0.005 to 2 mm (${chordToleranceMm} mm)` },
  field: { value: 'PART.FIELD', help: 'what is varied: the id of a part and its field, wheel.backspacing' },
  from: { value: 'A', help: "first value; a length without a unit is in the file's" },
  to: { value: 'B', help: 'last value' },
  step: { value: 'S', help: 'from one value to the next' },
  and: { value: 'PART.FIELD', help: 'a second field, each of its values with each of the first' },
  'and-from': { value: 'A', help: 'first value of the second field' },
  'and-to': { value: 'B', help: 'last value of the second field' },
  'and-step': { value: 'S', help: 'from one value of the second field to the next' },
  tyres: { value: 'LIST', help: 'a text file with a tyre on each line: 205/55R16, 37x12.5R17LT' },
  wheels: { value: 'LIST', help: 'a text file with a wheel on each line: 17x9x5 1/2 (backspacing last)' },
  within: { value: 'S', help: 'how closely a border is found (0.1 mm, 1/64 in or 0.1°)' },
  bleed: { value: 'DEG', help: "bleed screw at most this far from straight above the caliper's middle" },
  caliper: { value: 'ahead|behind', help: 'side of the axle that the caliper is to be on' },
  'caliper-range': { value: 'A,B', help: 'clockings the caliper may have, degrees from A to B' },
  'hub-range': { value: 'A,B', help: 'clockings the hub may have, degrees from A to B' },
  margin: { value: 'LENGTH', help: 'least margin beyond targets and allowances (0 mm)' },
  unsplit: {
    value: 'LIST',
    help: 'bolts that a plate of the upright must not stand between: caliper:upperLeg,hub:ID',
  },
  mounting: {
    value: 'WHICH',
    help: 'caliper mirrored, hub bolts-turned, both, or all ways round (drawn)',
  },
  candidates: { value: 'N', help: 'most candidates, 1 to 50 (5)' },
  swept: { help: 'sweep the candidates over all travel and steering, and rank them by that' },
  apply: { value: 'N', help: 'write the corner with the clockings of candidate N; needs --save' },
  save: { value: 'FILE', help: 'the corner file that is written' },
  threads: { value: 'N', help: 'worker threads, 1 to 64 (one for each core)' },
  unit: { value: 'mm|in', help: "unit of the figures shown (the file's; mm where it names none)" },
  out: { value: 'DIR', help: 'folder for the files, made where it does not exist' },
  stl: { value: 'DIR', help: 'folder for the STL files, made where it does not exist' },
  far: { help: 'list the far and joined pairs too, one by one' },
  all: { help: 'list every pair: as --far, with the zones of each and why others are not checked' },
  json: { help: 'print the findings as JSON instead of text' },
  progress: { help: 'report progress on standard error though it is not a terminal' },
  help: { help: 'show this help' },
} as const satisfies Record<string, OptionSpec>;
export type OptionName = keyof typeof OPTIONS;

/** What was typed after the name of a command. */
export interface Typed {
  /** The one file named. */
  file: string | undefined;
  values: ReadonlyMap<OptionName, string>;
}

const usage = (message: string) => new Failure(EXIT.usage, message);

/**
 * Reads the arguments of a command that knows `known` options. Throws a usage Failure for an option it does not know
 * (naming the nearest), one given twice, one without its value or a switch with one, and for a second file.
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
  wanted: string | undefined,
  token: { value?: string | undefined; inlineValue?: boolean | undefined },
): string {
  if (wanted === undefined) {
    if (token.value !== undefined)
      throw usage(`--${name} is a switch and takes no value, not "${token.value}"`);
    return '';
  }
  const missing =
    token.value === undefined || token.value === '' || (!token.inlineValue && /^--\D/.test(token.value));
  if (missing) throw usage(`--${name} needs a value: --${name} ${wanted}`);
  return token.value ?? '';
}

/** A whole number option within bounds, or `otherwise` where it was not typed. */
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
  throw usage(`--${name}: "${typed}" is not allowed; a whole number from ${least} to ${most} is`);
}

/** A length option within bounds, mm where no unit is typed, or `otherwise` where it was not typed. */
export function lengthMm(
  { values }: Typed,
  name: OptionName,
  leastMm: number,
  mostMm: number,
  otherwise: number,
): number {
  const typed = values.get(name);
  if (typed === undefined) return otherwise;
  const allowed = `a length from ${leastMm} to ${mostMm} mm is allowed`;
  let mm: number;
  try {
    ({ mm } = parseLength(typed, { unit: 'mm' }));
  } catch (error) {
    throw usage(`--${name}: ${(error as Error).message}; ${allowed}`);
  }
  if (mm >= leastMm && mm <= mostMm) return mm;
  throw usage(`--${name}: "${typed}" is not allowed; ${allowed}`);
}

/** A number option within bounds, or undefined where it was not typed. */
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
  throw usage(`--${name}: "${typed}" is not allowed; a number from ${least} to ${most} is`);
}

/** Two numbers with a comma between, within bounds and the second the larger; undefined where they were not typed. */
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
    `--${name}: "${typed}" is not allowed; two numbers from ${least} to ${most} with a comma between are, the larger last`,
  );
}

const numberIn = (typed: string): number => {
  const text = typed.trim().replace('−', '-');
  return /^[-+]?\d+(\.\d+)?$/.test(text) ? Number(text) : Number.NaN;
};

/** The unit typed, or `otherwise`, that of the file, where none was. Throws a usage Failure for another unit. */
export function unitOf({ values }: Typed, otherwise: 'mm' | 'in' = 'mm'): 'mm' | 'in' {
  const typed = values.get('unit') ?? otherwise;
  if (typed === 'mm' || typed === 'in') return typed;
  throw usage(`--unit: "${typed}" is not allowed; mm or in is`);
}

/** The file or folder that a command cannot do without. */
export function required(what: string, value: string | undefined): string {
  if (value === undefined) throw usage(`${what} is missing`);
  return value;
}
