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

function inputRows(design: Design, figures: Figures): Row[] {
  const inputs = design.inputs.filter(({ path }) => !NOT_TOLD.has(path) && !NAMES_PART.test(path));
  const rows: Row[] = [];
  for (let i = 0; i < inputs.length; ) {
    const records = tripleAt(inputs, i) ?? [inputs[i]];
    const { part, field } = fieldInWords(design, records[0].path);
    const joined = (words: (input: InputRecord) => string, between: string) => {
      const each = records.map(words);
      return each.every((word) => word === '') ? '' : each.map((word) => word || '–').join(between);
    };
    rows.push({
      cells: [
        part,
        records.length === 3 ? field.replace(/\[0\]$/, '') : field,
        joined(typedInWords, '; '),
        joined((input) => valueInWords(input, figures), '; '),
        joined((input) => plusMinusInWords(input, figures), '; '),
        records.some(({ assumed }) => assumed) ? 'assumed' : '',
      ],
    });
    i += records.length;
  }
  return rows;
}

/** Every input as typed, and the value it stands for; defaults that nobody confirmed are marked. */
export function inputSection(design: Design, figures: Figures): Section {
  const assumed = design.inputs.filter((input) => input.assumed).length;
  return {
    title: 'Inputs',
    blocks: [
      {
        kind: 'text',
        text: `${
          assumed === 0
            ? 'Every value was given; none is assumed.'
            : `${counted(assumed, 'value is', 'values are')} assumed, out of ${design.inputs.length}: a usual size that nobody measured on these parts. Measure them.`
        } A number without a unit is in millimetres; three values are X, Y and Z.`,
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
        rows: inputRows(design, figures),
      },
    ],
  };
}
