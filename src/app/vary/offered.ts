import { type Field, fieldsAt, type ValueField } from '../../design/fields.ts';
import type { Corner } from '../../design/schema.ts';
import type { LengthUnit } from '../../report/figures.ts';
import { assumedText, fieldName, shownText } from '../bench/fieldText.ts';
import type { OpenCorner } from '../engine.ts';

/** What the sheet offers to vary. */
export interface Offered {
  /** "wheel.backspacing", or the list of all that could take a part's place. */
  name: string;
  /** "Wheel 17 × 9: backspacing". */
  label: string;
  /** Of a dimension; undefined of a list. */
  kind: 'length' | 'angle' | 'number' | 'count' | undefined;
  /** What the corner has now; empty where that is not known. */
  now: string;
}

/** Names of the lists: no dimension is called so, as each has a part before it. */
export const LISTS = { tyres: 'tyre', wheels: 'wheel' } as const;
export type ListName = keyof typeof LISTS;
export const isList = (name: string): name is ListName => Object.hasOwn(LISTS, name);

/** The dimensions that are most often chosen last, and bought or made to fit. */
const DIMENSIONS: Partial<Record<Corner['parts'][number]['kind'], readonly string[]>> = {
  spacer: ['thickness'],
  wheel: ['backspacing', 'offset', 'width', 'diameterCode'],
  tyre: ['overallDiameter'],
  rotor: ['diameter'],
  caliper: ['clockingDeg'],
  hub: ['clockingDeg'],
};

const VARIED: readonly string[] = ['length', 'angle', 'number', 'count'] satisfies Offered['kind'][];
const isVaried = (field: Field): field is ValueField => VARIED.includes(field.kind);

/** What of a corner the sheet offers to vary, part by part; then lists of tyres and of wheels, where it has one. */
export function offeredOf({ design }: Pick<OpenCorner, 'design'>, unit: LengthUnit): Offered[] {
  const { source, corner } = design;
  const dimensions = corner.parts.flatMap(({ id, label, kind }, p) => {
    const wanted = DIMENSIONS[kind] ?? [];
    if (wanted.length === 0) return [];
    const fields = fieldsAt(source, ['parts', p]).filter(isVaried);
    const has = (key: string) => fields.some((field) => field.key === key && field.typed !== undefined);
    return wanted
      .filter((key) => key !== (has('backspacing') ? 'offset' : 'backspacing'))
      .flatMap((key) => fields.filter((field) => field.key === key))
      .map((field): Offered => {
        const name = fieldName(field.key);
        return {
          name: `${id}.${field.key}`,
          label: `${label ?? id}: ${name.charAt(0).toLowerCase()}${name.slice(1)}`,
          kind: field.kind as Offered['kind'],
          now: shownText(field) || assumedText(field, unit),
        };
      });
  });
  const lists = (Object.keys(LISTS) as ListName[])
    .filter((list) => corner.parts.some(({ kind }) => kind === LISTS[list]))
    .map((name): Offered => ({ name, label: `A list of ${name}`, kind: undefined, now: '' }));
  return [...dimensions, ...lists];
}
