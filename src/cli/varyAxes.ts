import { readFile } from 'node:fs/promises';
import type { Design } from '../design/design.ts';
import { amountFrom } from '../studies/vary/amountFrom.ts';
import type { Axis } from '../studies/vary/axis.ts';
import { tyreAxis, wheelAxis } from '../studies/vary/listAxes.ts';
import { rangeAxis } from '../studies/vary/rangeAxis.ts';
import { variedField } from '../studies/vary/variedField.ts';
import { EXIT, Failure } from './exit.ts';
import type { OptionName, Typed } from './options.ts';
import { fileErrorInWords } from './readCorner.ts';

const usage = (message: string) => new Failure(EXIT.usage, message);

/** The options that make up one range. */
interface RangeOptions {
  field: OptionName;
  from: OptionName;
  to: OptionName;
  step: OptionName;
}
const FIRST: RangeOptions = { field: 'field', from: 'from', to: 'to', step: 'step' };
const SECOND: RangeOptions = { field: 'and', from: 'and-from', to: 'and-to', step: 'and-step' };
const LISTS = [
  ['tyres', tyreAxis],
  ['wheels', wheelAxis],
] as const;

/**
 * The one or two axes of the command line. Throws a usage Failure, which names the option, the value typed and what is
 * allowed, if there is no axis, more than two, or an incomplete one; and a Failure if a list cannot be read.
 */
export async function axesTyped(typed: Typed, design: Design, unit: 'mm' | 'in'): Promise<Axis[]> {
  const axes: Axis[] = [];
  for (const options of [FIRST, SECOND]) {
    if (typed.values.has(options.field)) axes.push(rangeTyped(typed, options, design, unit));
    else requireAbsent(typed, options);
  }
  if (typed.values.has('within') && axes.length === 0)
    throw usage('--within needs a range: give --field as well');
  for (const [option, axisOf] of LISTS) {
    const file = typed.values.get(option);
    if (file === undefined) continue;
    const list = await readList(option, file);
    try {
      axes.push(axisOf(design.source, list));
    } catch (error) {
      throw new Failure(EXIT.badInput, `--${option}: ${file}: ${(error as Error).message}`);
    }
  }
  if (typed.values.has('within') && axes.length === 2)
    throw usage(
      '--within: borders are found only if one field varies. Leave it out, or vary one field alone.',
    );
  if (axes.length === 1 || axes.length === 2) return axes;
  throw usage(
    axes.length === 0
      ? 'no field or list is given: give --field PART.FIELD with --from, --to and --step, or --tyres LIST, or --wheels LIST'
      : `${axes.length} fields and lists are given. Give at most two.`,
  );
}

function requireAbsent({ values }: Typed, { field, from, to, step }: RangeOptions): void {
  const lone = [from, to, step].find((name) => values.has(name));
  if (lone !== undefined) throw usage(`--${lone} needs --${field}, which is missing: --${field} PART.FIELD`);
}

function rangeTyped(typed: Typed, options: RangeOptions, design: Design, unit: 'mm' | 'in'): Axis {
  const naming = <T>(option: OptionName, work: () => T): T => {
    try {
      return work();
    } catch (error) {
      throw usage(`--${option}: ${(error as Error).message}`);
    }
  };
  const name = typed.values.get(options.field) ?? '';
  const field = naming(options.field, () => variedField(design.source, name));
  const amount = (option: OptionName): number => {
    const text = typed.values.get(option);
    if (text === undefined) throw usage(`--${option} is missing: --${options.field} ${name} needs it`);
    return naming(option, () => amountFrom(text, field, design.corner.unit));
  };
  const [from, to, step] = [amount(options.from), amount(options.to), amount(options.step)];
  if (!(step > 0))
    throw usage(
      `--${options.step}: "${typed.values.get(options.step)}" is not allowed. Give a step greater than 0.`,
    );
  if (!(to > from))
    throw usage(
      `--${options.to}: "${typed.values.get(options.to)}" is not allowed. Give a value greater than --${options.from} (${typed.values.get(options.from)}).`,
    );
  // Only for one field: two fields may have two units, and a grid has no borders.
  const within = options.field === 'field' && typed.values.has('within') ? amount('within') : undefined;
  if (within !== undefined && !(within > 0))
    throw usage(
      `--within: "${typed.values.get('within')}" is not allowed. Give a length or angle greater than 0.`,
    );
  return naming(options.field, () => rangeAxis(field, { from, to, step, within }, unit));
}

async function readList(option: OptionName, file: string): Promise<string> {
  try {
    return await readFile(file, 'utf8');
  } catch (error) {
    throw new Failure(EXIT.noInput, `--${option}: ${file}: cannot be opened: ${fileErrorInWords(error)}`);
  }
}
