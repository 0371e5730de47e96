import type { Design, InputRecord } from '../design/design.ts';
import type { Row, Section } from './content.ts';
import { counted, type Figures } from './figures.ts';

/** What tells one file format from another rather than one corner from another. */
const NOT_TOLD = new Set(['$schema', 'format', 'version']);
/** The names a part goes by stand in its own column. */
const NAMES_PART = /^parts\[\d+\]\.(id|label)$/;

/** A field of a file as people find it: the part it belongs to and the field within. */
function fieldInWords(design: Design, path: string): { part: string; field: string } {
  const match = /^parts\[(\d+)\]\.(.+)$/.exec(path);
  const part = match === null ? undefined : design.corner.parts[Number(match[1])];
  return match === null || part === undefined
    ? { part: '', field: path }
    : { part: part.label ?? part.id, field: match[2] };
}

const typedInWords = (input: InputRecord): string => (input.typed === undefined ? '' : String(input.typed));

/** The value in use, with its unit. */
export function valueInWords(input: InputRecord, figures: Figures): string {
  if (typeof input.value !== 'number') return String(input.value);
  if (input.quantity === 'length') return figures.dimension(input.value);
  return input.quantity === 'angle' ? `${input.value}°` : String(input.value);
}

const plusMinusInWords = (input: InputRecord, figures: Figures): string =>
  input.plusMinusMm === undefined ? '' : figures.boundWithUnit(input.plusMinusMm);

/** The three records of a point or a direction, where one begins at `at`; undefined otherwise. */
function tripleAt(inputs: readonly InputRecord[], at: number): InputRecord[] | undefined {
  const name = /^(.*)\[0\]$/.exec(inputs[at].path)?.[1];
  const three = inputs.slice(at, at + 3);
  const follows = three.length === 3 && three.every(({ path }, k) => path === `${name}[${k}]`);
  const ends = inputs[at + 3]?.path !== `${name}[3]`;
  return name !== undefined && follows && ends ? three : undefined;
}

/** Why a value is assumed, for a table; empty where it was given. */
function assumedInWords(records: readonly InputRecord[]): string {
  const assumed = records.filter((record) => record.assumed);
  if (assumed.length === 0) return '';
  return assumed.every(({ typed }) => typed === undefined) ? 'a default' : 'to start from';
}

/** The records of each value of a file; of a point or a direction all three. */
function inputGroups(design: Design): InputRecord[][] {
  const inputs = design.inputs.filter(({ path }) => !NOT_TOLD.has(path) && !NAMES_PART.test(path));
  const groups: InputRecord[][] = [];
  for (let i = 0; i < inputs.length; i += groups[groups.length - 1].length)
    groups.push(tripleAt(inputs, i) ?? [inputs[i]]);
  return groups;
}

/** The path of a value, of a point or direction without the index of its coordinate. */
const groupPath = (records: readonly InputRecord[]): string =>
  records.length === 3 ? records[0].path.replace(/\[0\]$/, '') : records[0].path;

/** A value that nobody measured: its path, and whether it can be measured on the part. */
interface AssumedValue {
  path: string;
  isMeasurable: boolean;
}

/** The assumed values of a design, a point or a direction as one, in the order of the schema. */
export const assumedOf = (design: Design): AssumedValue[] =>
  inputGroups(design)
    .filter((records) => assumedInWords(records) !== '')
    .map((records) => {
      const path = groupPath(records);
      return { path, isMeasurable: records[0].quantity !== 'other' && !path.endsWith('.allowance') };
    });

/** A row for each value, or point, of a file. */
function inputRows(design: Design, figures: Figures): { cells: string[]; assumed: string }[] {
  return inputGroups(design).map((records) => {
    const { part, field } = fieldInWords(design, groupPath(records));
    const joined = (words: (input: InputRecord) => string, between: string) => {
      const each = records.map(words);
      return each.every((word) => word === '') ? '' : each.map((word) => word || '–').join(between);
    };
    const assumed = assumedInWords(records);
    return {
      assumed,
      cells: [
        part,
        field,
        joined(typedInWords, '; '),
        joined((input) => valueInWords(input, figures), '; '),
        joined((input) => plusMinusInWords(input, figures), '; '),
        assumed === '' ? '' : `assumed, ${assumed}`,
      ],
    };
  });
}

/** Every value of the file that nobody measured, a point as one: those that it leaves out, and those it lists as assumed. */
export function assumedSection(design: Design, figures: Figures): Section {
  const rows = inputRows(design, figures).filter(({ assumed }) => assumed !== '');
  if (rows.length === 0)
    return {
      title: 'Assumed values',
      blocks: [{ kind: 'text', text: 'Every value was given; none is assumed.' }],
    };
  return {
    title: 'Assumed values',
    blocks: [
      {
        kind: 'text',
        text: `${counted(rows.length, 'value is', 'values are')} assumed: nobody measured them on these parts. Measure them. A default is a usual size that stands in for what the file leaves out; a value to start from came with the part and is listed as assumed in the file.`,
      },
      {
        kind: 'table',
        columns: [{ title: 'Part' }, { title: 'Field' }, { title: 'In use' }, { title: 'What it is' }],
        rows: rows.map(
          ({ cells: [part, field, , inUse], assumed }): Row => ({
            cells: [part, field, inUse, assumed],
          }),
        ),
      },
    ],
  };
}

/** What Z was measured from, where that is not the ground. */
function originInWords({ corner: { originHeight } }: Design, figures: Figures): string {
  if (originHeight === undefined) return '';
  return ` Z of a point is typed from ${figures.dimension(originHeight)} above the ground, and in use from the ground.`;
}

/** Every input as typed, and the value it stands for; what is assumed is marked. */
export function inputSection(design: Design, figures: Figures): Section {
  return {
    title: 'Inputs',
    blocks: [
      {
        kind: 'text',
        text: `A number without a unit is in millimetres; three values are X, Y and Z.${originInWords(design, figures)}`,
      },
      {
        kind: 'table',
        columns: [
          { title: 'Part' },
          { title: 'Field' },
          { title: 'As typed' },
          { title: 'In use' },
          { title: '±' },
          { title: 'Note' },
        ],
        rows: inputRows(design, figures).map(({ cells }): Row => ({ cells })),
      },
    ],
  };
}
