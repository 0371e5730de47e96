import type { Design } from '../../../design/design.ts';
import { amountFrom } from '../../../studies/vary/amountFrom.ts';
import type { Axis } from '../../../studies/vary/axis.ts';
import { tyreAxis, wheelAxis } from '../../../studies/vary/listAxes.ts';
import { rangeAxis } from '../../../studies/vary/rangeAxis.ts';
import { variedField } from '../../../studies/vary/variedField.ts';
import { isList, type ListName } from './offered.ts';

/** The texts typed to vary a dimension over a range, or a list. */
export interface TypedRange {
  from: string;
  to: string;
  step: string;
  /** One entry per line. */
  list: string;
}
export type TypedKey = keyof TypedRange;
export const NOTHING_TYPED: TypedRange = { from: '', to: '', step: '', list: '' };

/** Problems of the typed texts, by field. */
export type TypedProblems = Partial<Record<TypedKey, string>>;

const LIST_AXES: Record<ListName, (source: unknown, list: string) => Axis> = {
  tyres: tyreAxis,
  wheels: wheelAxis,
};

/**
 * The axis for a dimension or a list and the texts typed for it, or their problems. Lengths without a unit are in the unit of
 * the file.
 */
export function typedAxis(
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
    problems.to ??= `must be greater than the start of the range, ${typed.from.trim()}`;
  if (step !== undefined && !(step > 0)) problems.step ??= 'must be greater than 0';
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
