import type { InputRecord } from '../../design/design.ts';
import type { LengthUnit } from '../../report/figures.ts';
import type { Solid, SolidKind } from '../../solids/solid.ts';
import { trimmed } from '../words.ts';

const NAMES_UNIT = /[a-z"'′″]/i;

/** A length as typed, with the file's unit where it was typed without one. */
export const withUnit = (typed: string, fileUnit: LengthUnit | undefined): string =>
  typed === '' || fileUnit === undefined || NAMES_UNIT.test(typed) ? typed : `${typed} ${fileUnit}`;

/** The value as typed (with the file's unit where it was typed without one); a plain number of mm in the unit chosen; an angle in degrees. */
export function inputText(
  { typed, value, quantity, path }: InputRecord,
  unit: LengthUnit,
  fileUnit: LengthUnit | undefined,
): string {
  if (typeof typed === 'string') return quantity === 'length' ? withUnit(typed, fileUnit ?? 'mm') : typed;
  if (typeof value === 'number' && quantity === 'length')
    return `${trimmed(value, unit, unit === 'mm' ? 2 : 3)} ${unit}`;
  if (typeof value === 'number' && (quantity === 'angle' || path.endsWith('Deg')))
    return `${String(value).replace('-', '−')}°`;
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  return inWords(String(value));
}

/** `outboardDepth` as "outboard depth". */
export const inWords = (name: string): string =>
  name
    .replace(/Deg$/, '')
    .replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`)
    .replace(/\[(\d+)\]/g, (_, index) => ` ${Number(index) + 1}`);

/** The dimensions by which a solid of each kind is known, the first that was given, with words before and after. */
const KEYS: Partial<Record<SolidKind, readonly (readonly [string, string, string])[]>> = {
  wheel: [
    ['backspacing', '', ' back'],
    ['offset', 'offset ', ''],
  ],
  tyre: [['designation', '', '']],
  hub: [['flangeDiameter', 'flange ', '']],
  bearingHousing: [['housingDiameter', 'Ø ', '']],
  spacer: [['thickness', '', ' thick']],
  rotor: [['diameter', 'Ø ', '']],
  caliper: [['clockingDeg', 'at ', '']],
  upright: [['plateThickness', 'plate ', '']],
  controlArm: [['tubeDiameter', 'tube ', '']],
  joint: [['boltDiameter', 'bolt ', '']],
  tieRod: [['tubeDiameter', 'tube ', '']],
  damperBody: [['bodyDiameter', 'Ø ', '']],
  damperRod: [['rodDiameter', 'Ø ', '']],
  bolts: [['size', '', '']],
  tube: [['diameter', 'Ø ', '']],
  plate: [['thickness', '', ' thick']],
};

/** "Ø 310 mm", "6 in back": the key dimension of a solid; empty where it has none or its label says it already. */
export function keyDimension(
  inputs: readonly InputRecord[],
  { partIndex, kind, label }: Pick<Solid, 'partIndex' | 'kind' | 'label'>,
  unit: LengthUnit,
  fileUnit: LengthUnit | undefined,
): string {
  for (const [field, before, after] of KEYS[kind] ?? []) {
    const input = inputs.find(({ path }) => path === `parts[${partIndex}].${field}`);
    if (input === undefined) continue;
    // A tolerance is told with the part's own dimensions.
    const typed = typeof input.typed === 'string' ? input.typed.replace(/\s*±.*/, '') : input.typed;
    const text = inputText({ ...input, typed }, unit, fileUnit);
    return label.includes(text) ? '' : `${before}${text}${after}`;
  }
  return '';
}
