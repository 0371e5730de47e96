import type { Design } from '../../design/design.ts';
import { amountFrom } from '../../studies/vary/amountFrom.ts';
import type { Axis } from '../../studies/vary/axis.ts';
import { tyreAxis, wheelAxis } from '../../studies/vary/listAxes.ts';
import { rangeAxis } from '../../studies/vary/rangeAxis.ts';
import { variedField } from '../../studies/vary/variedField.ts';
import { isList, type ListName } from './offered.ts';

/** What was typed to vary one thing: a range, or a list. */
export interface TypedRange {
  from: string;
  to: string;
  step: string;
  /** One on each line. */
  list: string;
}
export type TypedKey = keyof TypedRange;
export const NOTHING_TYPED: TypedRange = { from: '', to: '', step: '', list: '' };

/** What is wrong with what was typed, in words, by where it was typed. */
export type TypedProblems = Partial<Record<TypedKey, string>>;

const LIST_AXES: Record<ListName, (source: unknown, list: string) => Axis> = {
  tyres: tyreAxis,
  wheels: wheelAxis,
};

/**
 * The axis that is asked for, by the name of a dimension or a list and what was typed for it; else what is wrong with that.
 * Lengths without a unit are in the file's.
 */
export function axisAsked(
  { source, corner }: Design,
  name: string,
  typed: TypedRange,
): { axis: Axis } | { problems: TypedProblems } {
  const problems: TypedProblems = {};
  const reading = <T>(key: TypedKey, read: () => T): T | undefined => {
    try {
      return read();
    } catch (error) {
      problems[key] ??= (error as Error).message;
      return undefined;
    }
  };
  if (isList(name)) {
    const axis = reading('list', () => LIST_AXES[name](source, typed.list));
    return axis === undefined ? { problems } : { axis };
  }
  const field = variedField(source, name);
  const amount = (key: 'from' | 'to' | 'step') =>
    reading(key, () => {
      const text = typed[key].trim();
      if (text === '') throw new Error(`is empty: write ${MEANT[field.kind]}`);
      return amountFrom(text, field, corner.unit);
    });
  const [from, to, step] = [amount('from'), amount('to'), amount('step')];
  if (from !== undefined && to !== undefined && !(to > from))
    problems.to ??= `must be more than where the range begins, ${typed.from.trim()}`;
  if (step !== undefined && !(step > 0)) problems.step ??= 'must be more than 0';
  if (from === undefined || to === undefined || step === undefined || Object.keys(problems).length > 0)
    return { problems };
  const axis = reading('step', () => rangeAxis(field, { from, to, step }, corner.unit ?? 'mm'));
  return axis === undefined ? { problems } : { axis };
}

const MEANT = {
  length: 'a length, such as 12 mm or 1/2 in',
  angle: 'degrees, such as 12.5',
  number: 'a number',
  count: 'a whole number',
};
