import { type Field, fieldsAt, type ValueField } from '../../../design/fields.ts';
import type { Corner, Suspension } from '../../../design/schema.ts';
import { layoutOf } from '../../../layouts/layoutOf.ts';
import type { LengthUnit } from '../../../report/figures.ts';
import type { OpenCorner } from '../../state/engine.ts';
import { assumedText, fieldName, shownText } from '../../state/fieldText.ts';

/** A dimension or list that the sheet offers to vary. */
export interface Offered {
  /** "wheel.backspacing", or the name of a list of replacement parts. */
  name: string;
  /** "Wheel 16 × 8: backspacing". */
  label: string;
  /** Kind of the dimension; undefined for a list. */
  kind: 'length' | 'angle' | 'number' | 'count' | undefined;
  /** Current value; empty if unknown. */
  now: string;
}

/** Names of the lists. They differ from dimensions, whose names start with a part. */
const LISTS = { tyres: 'tyre', wheels: 'wheel' } as const;
export type ListName = keyof typeof LISTS;
export const isList = (name: string): name is ListName => Object.hasOwn(LISTS, name);

/** Dimensions that are usually chosen last: of parts bought or made to fit. */
const DIMENSIONS: Partial<Record<Corner['parts'][number]['kind'], readonly string[]>> = {
  spacer: ['thickness'],
  wheel: ['backspacing', 'offset', 'width', 'diameterCode'],
  tyre: ['overallDiameter'],
  rotor: ['diameter'],
  caliper: ['clockingDeg'],
  hub: ['clockingDeg'],
};

/** Stops of the suspension, which are set last. */
function stopsOf(suspension: Suspension): Readonly<Record<'steering' | 'travel', readonly string[]>> {
  const { outboard, inboard } = layoutOf(suspension).steering;
  return { steering: [outboard, inboard], travel: ['bump', 'droop'] };
}

const VARIED: readonly string[] = ['length', 'angle', 'number', 'count'] satisfies Offered['kind'][];
const isVaried = (field: Field): field is ValueField => VARIED.includes(field.kind);

/** Everything the sheet offers to vary: dimensions part by part, stops, then lists of tyres and wheels if the corner has one. */
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
  const stops = Object.entries(stopsOf(corner.suspension)).flatMap(([group, keys]) =>
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
