import type { InputRecord } from '../../design/design.ts';
import type { PartKind } from '../../design/schema.ts';
import type { LengthUnit } from '../../report/figures.ts';
import { trimmed } from '../words.ts';

/** The value as typed where it was typed with its unit; a plain number of mm in the unit chosen; an angle in degrees. */
export function inputText({ typed, value, quantity, path }: InputRecord, unit: LengthUnit): string {
  if (typeof typed === 'string') return typed;
  if (typeof value === 'number' && quantity === 'length') return `${trimmed(value, unit, unit === 'mm' ? 2 : 3)} ${unit}`;
  if (typeof value === 'number' && (quantity === 'angle' || path.endsWith('Deg'))) return `${value}°`;
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  return words(String(value));
}

/** `outboardDepth` as "outboard depth". */
const words = (name: string): string =>
  name
    .replace(/Deg$/, '')
    .replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`)
    .replace(/\[(\d+)\]/g, (_, index) => ` ${Number(index) + 1}`);

/** What a field is called under its part: `parts[4].body.outboardDepth` is "Body, outboard depth". */
export function inputName(path: string): string {
  const text = path.replace(/^parts\[\d+\]\./, '').split('.').map(words).join(', ').trim();
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** The dimension by which a part of each kind is known. */
const KEY_FIELDS: Record<PartKind, readonly string[]> = {
  wheel: ['diameterCode', 'width'],
  tyre: ['designation'],
  hub: ['mountDepth'],
  spacer: ['thickness'],
  rotor: ['diameter', 'thickness'],
  caliper: ['clockingDeg'],
  upright: ['plateThickness'],
  controlArm: ['tubeDiameter'],
  joint: ['boltDiameter'],
  tieRod: ['tubeDiameter'],
  damper: ['bodyDiameter'],
  tube: ['diameter'],
  box: [],
  plate: ['thickness'],
};

/** "310 × 26 mm", "17 × 8 in": the key dimension of the part whose entry stands at `parts[part]`; empty for none. */
export function keyDimension(
  inputs: readonly InputRecord[],
  part: number,
  kind: PartKind,
  unit: LengthUnit,
): string {
  const texts = KEY_FIELDS[kind].flatMap((field) => {
    const input = inputs.find(({ path }) => path === `parts[${part}].${field}`);
    // A tolerance is told with the part's own dimensions.
    return input === undefined ? [] : [inputText(input, unit).replace(/\s*±.*/, '')];
  });
  return texts.join(' × ').replace(/ (mm|in) × (.*) \1$/, ' × $2 $1');
}
