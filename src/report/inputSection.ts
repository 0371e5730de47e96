import type { Design, InputRecord } from '../design/design.ts';
import type { Section } from './content.ts';
import { counted, type Figures } from './figures.ts';

/** A field of a file as people find it: the part it belongs to and the field within. */
export function fieldInWords(design: Design, path: string): { part: string; field: string } {
  const match = /^parts\[(\d+)\]\.(.+)$/.exec(path);
  const part = match === null ? undefined : design.corner.parts[Number(match[1])];
  return match === null || part === undefined
    ? { part: '', field: path }
    : { part: part.label ?? part.id, field: match[2] };
}

/** The value in use, with its unit. */
export function valueInWords(input: InputRecord, figures: Figures): string {
  if (typeof input.value !== 'number') return String(input.value);
  if (input.quantity === 'length') return figures.dimension(input.value);
  return input.quantity === 'angle' ? `${input.value}°` : String(input.value);
}

/** Every input as typed, and the value it stands for; defaults that nobody confirmed are marked. */
export function inputSection(design: Design, figures: Figures): Section {
  const assumed = design.inputs.filter((input) => input.assumed).length;
  return {
    title: 'Inputs',
    blocks: [
      {
        kind: 'text',
        text:
          assumed === 0
            ? 'Every value was given; none is assumed. A number without a unit is in millimetres.'
            : `${counted(assumed, 'value is', 'values are')} assumed, out of ${design.inputs.length}: a common size that nobody measured on these parts. Measure them. A number without a unit is in millimetres.`,
      },
      {
        kind: 'table',
        columns: [
          { title: 'Part' },
          { title: 'Field' },
          { title: 'As typed' },
          { title: 'In use', figure: true },
          { title: '±', figure: true },
          { title: 'Note' },
        ],
        rows: design.inputs.map((input) => {
          const { part, field } = fieldInWords(design, input.path);
          return {
            cells: [
              part,
              field,
              input.typed === undefined ? '' : String(input.typed),
              valueInWords(input, figures),
              input.plusMinusMm === undefined ? '' : figures.boundWithUnit(input.plusMinusMm),
              input.assumed ? 'assumed' : '',
            ],
          };
        }),
      },
    ],
  };
}
