/** Units of length allowed in a typed length. A file declares mm or in. */
export type LengthUnit = 'mm' | 'cm' | 'm' | 'in' | 'ft' | 'thou';

/** The allowed units, for messages. */
export const UNIT_LIST = 'mm, cm, m, in (or "), thou or ft (or \')';

/** Millimetres in one unit as numerator and denominator: the inch is 25.4 mm exactly (ISO 31-1, 1959 agreement). */
const RATIOS: Readonly<Record<LengthUnit, readonly [number, number]>> = {
  mm: [1, 1],
  cm: [10, 1],
  m: [1000, 1],
  in: [127, 5],
  ft: [1524, 5],
  thou: [127, 5000],
};

const NAMES = new Map<string, LengthUnit>([
  ['mm', 'mm'],
  ['cm', 'cm'],
  ['m', 'm'],
  ['thou', 'thou'],
  ...['in', 'in.', 'inch', 'inches', '"', '″', '”', "''"].map((name): [string, LengthUnit] => [name, 'in']),
  ...['ft', 'ft.', 'foot', 'feet', "'", '′', '’'].map((name): [string, LengthUnit] => [name, 'ft']),
]);

export const unitRatio = (unit: LengthUnit): readonly [number, number] => RATIOS[unit];

/** The unit of a name or mark, in any case; undefined for any other text. */
export const unitNamed = (name: string): LengthUnit | undefined => NAMES.get(name.trim().toLowerCase());
