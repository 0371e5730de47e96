import { z } from 'zod';
import { cornerSchema } from './schema.ts';

/** Forms that each quantity may be written in; added to the description of the field for editors. */
const UNITS: Readonly<Record<string, string>> = {
  length: 'A length: a number of mm, or text such as "5 1/2 in ±1/32" or "139.7 mm".',
  angle: 'Degrees.',
};

/**
 * The JSON Schema (draft 2020-12) of a corner file, for editors: meaning, unit and limits of each field. Only `parseDesign`
 * checks fields against each other, and whether a text is a length.
 */
export function cornerJsonSchema(): Record<string, unknown> {
  const { '~standard': _, ...schema } = z.toJSONSchema(cornerSchema(Number), {
    io: 'input',
    override: ({ jsonSchema }) => {
      delete jsonSchema.aboveZero;
      const units = UNITS[String(jsonSchema.quantity)];
      if (units === undefined) return;
      jsonSchema.description = [jsonSchema.description, units].filter(Boolean).join(' ');
      delete jsonSchema.quantity;
    },
  });
  return { ...schema, title: 'Corner of a vehicle' };
}
