import type { Design, InputRecord } from '../design/design.ts';
import type { Row, Section } from './content.ts';
import { counted, type Figures } from './figures.ts';

/** Fields of the file format, which are not values of the corner. */
const FORMAT_FIELDS = new Set(['$schema', 'format', 'version']);
/** Id and label of a part: they have a column of their own. */
const NAMES_PART = /^parts\[\d+\]\.(id|label)$/;

/** The part and the field within it at a path of the file. */
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

/** The ± in use, with its unit; empty if there is none. */
export const plusMinusInWords = ({ quantity, plusMinus }: InputRecord, figures: Figures): string =>
  plusMinus === undefined
    ? ''
    : quantity === 'angle'
      ? `${plusMinus.amount}°`
      : figures.boundWithUnit(plusMinus.amount);

/** The three records of a point or direction that begins at index `at`; undefined if none does. */
function tripleAt(inputs: readonly InputRecord[], at: number): InputRecord[] | undefined {
  const name = /^(.*)\[0\]$/.exec(inputs[at].path)?.[1];
  const three = inputs.slice(at, at + 3);
  const follows = three.length === 3 && three.every(({ path }, k) => path === `${name}[${k}]`);
  const ends = inputs[at + 3]?.path !== `${name}[3]`;
  return name !== undefined && follows && ends ? three : undefined;
}

/** Origin of an assumed value, for a table; empty if it is given. */
function assumedInWords(records: readonly InputRecord[]): string {
  const assumed = records.filter((record) => record.assumed);
  if (assumed.length === 0) return '';
  return assumed.every(({ typed }) => typed === undefined) ? 'default' : 'starting value';
}

/** The records of each value of a file; for a point or direction its three records together. */
function inputGroups(design: Design): InputRecord[][] {
  const inputs = design.inputs.filter(({ path }) => !FORMAT_FIELDS.has(path) && !NAMES_PART.test(path));
  const groups: InputRecord[][] = [];
  for (let i = 0; i < inputs.length; i += groups[groups.length - 1].length)
    groups.push(tripleAt(inputs, i) ?? [inputs[i]]);
  return groups;
}

/** The path of a value; for a point or direction without the index of the coordinate. */
const groupPath = (records: readonly InputRecord[]): string =>
  records.length === 3 ? records[0].path.replace(/\[0\]$/, '') : records[0].path;

/** An assumed value. `isMeasurable`: it can be measured on the part. */
interface AssumedValue {
  path: string;
  isMeasurable: boolean;
}

/** The assumed values of a design in the order of the schema; a point or direction counts as one. */
export const assumedOf = (design: Design): AssumedValue[] =>
  inputGroups(design)
    .filter((records) => assumedInWords(records) !== '')
    .map((records) => {
      const path = groupPath(records);
      return { path, isMeasurable: records[0].quantity !== 'other' && !path.endsWith('.allowance') };
    });

/** A row for each value or point of a file. */
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
        assumed === '' ? '' : `assumed: ${assumed}`,
      ],
    };
  });
}

/** The origin of typed Z values, in a sentence; empty if it is the ground. */
function originInWords({ corner: { originHeight } }: Design, figures: Figures): string {
  if (originHeight === undefined) return '';
  return ` Typed Z values are from an origin ${figures.dimension(originHeight)} above the ground; values in use are from the ground.`;
}

/** How many values are assumed, and what that means. */
function assumedInSentence(design: Design): string {
  const count = assumedOf(design).length;
  return count === 0
    ? 'No value is assumed.'
    : `${counted(count, 'value is', 'values are')} assumed, not measured on these parts. Measure them. A default is a usual size for a value that the file leaves out. A starting value was set when the part was added, and the file lists it as assumed.`;
}

/** Every input as typed and its value in use; assumed values are marked. */
export function inputSection(design: Design, figures: Figures): Section {
  return {
    title: 'Inputs',
    blocks: [
      {
        kind: 'text',
        text: `A number without a unit is in millimetres. Three values are X, Y and Z.${originInWords(design, figures)} ${assumedInSentence(design)}`,
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
