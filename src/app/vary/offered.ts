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

/** Of the suspension: the stops that are set last. */
const STOPS: Readonly<Record<'steering' | 'travel', readonly string[]>> = {
  steering: ['rackOutboard', 'rackInboard'],
  travel: ['bump', 'droop'],
};

const VARIED: readonly string[] = ['length', 'angle', 'number', 'count'] satisfies Offered['kind'][];
const isVaried = (field: Field): field is ValueField => VARIED.includes(field.kind);

/** What of a corner the sheet offers to vary: dimensions part by part, stops, then lists of tyres and of wheels, if it has one. */
export function offeredOf({ design }: Pick<OpenCorner, 'design'>, unit: LengthUnit): Offered[] {
  const { source, corner } = design;
  const offer = (name: string, owner: string, field: ValueField): Offered => {
    const words = fieldName(field.key);
    return {
      name,
      label: `${owner}: ${words.charAt(0).toLowerCase()}${words.slice(1)}`,
      kind: field.kind as Offered['kind'],
      now: shownText(field) || assumedText(field, unit),
    };
  };
  const dimensions = corner.parts.flatMap(({ id, label, kind }, p) => {
    const wanted = DIMENSIONS[kind] ?? [];
    if (wanted.length === 0) return [];
    const fields = fieldsAt(source, ['parts', p]).filter(isVaried);
    const has = (key: string) => fields.some((field) => field.key === key && field.typed !== undefined);
    return wanted
      .filter((key) => key !== (has('backspacing') ? 'offset' : 'backspacing'))
      .flatMap((key) => fields.filter((field) => field.key === key))
      .map((field) => offer(`${id}.${field.key}`, label ?? id, field));
  });
  const stops = Object.entries(STOPS).flatMap(([group, keys]) =>
    fieldsAt(source, ['suspension', group])
      .filter(isVaried)
      .filter(({ key }) => keys.includes(String(key)))
      .map((field) => offer(`suspension.${group}.${field.key}`, fieldName(group), field)),
  );
  const lists = (Object.keys(LISTS) as ListName[])
    .filter((list) => corner.parts.some(({ kind }) => kind === LISTS[list]))
    .map((name): Offered => ({ name, label: `A list of ${name}`, kind: undefined, now: '' }));
  return [...dimensions, ...stops, ...lists];
}
