import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { cornerSchema } from '../../src/design/schema.ts';
import { bare, descriptionOf, measureOf } from '../../src/design/schemaWalk.ts';

interface Described {
  path: string;
  description: string | undefined;
  measure: ReturnType<typeof measureOf>;
}

/** Every field of a schema: of objects, items of lists, and all options of a union. */
function fieldsOf(schema: z.core.$ZodType, path: string): Described[] {
  const inner = bare(schema);
  const field = (child: z.core.$ZodType, key: string): Described[] => {
    const at = path === '' ? key : `${path}.${key}`;
    return [
      { path: at, description: descriptionOf(child), measure: measureOf(child) },
      ...fieldsOf(child, at),
    ];
  };
  // A length is a union of number and text, without fields of its own.
  if (measureOf(schema) !== undefined) return [];
  if (inner instanceof z.ZodObject)
    return Object.entries(inner.shape as Record<string, z.core.$ZodType>).flatMap(([key, child]) =>
      field(child, key),
    );
  if (inner instanceof z.ZodTuple) return inner.def.items.flatMap((item, i) => field(item, String(i)));
  if (inner instanceof z.ZodArray) {
    const isUnion = bare(inner.def.element) instanceof z.ZodDiscriminatedUnion;
    return isUnion ? fieldsOf(inner.def.element, `${path}[]`) : field(inner.def.element, '[]');
  }
  if (inner instanceof z.ZodDiscriminatedUnion)
    return inner.def.options.flatMap((option) => fieldsOf(option, `${path}(${nameOf(option)})`));
  return [];
}

function nameOf(option: z.core.$ZodType): string {
  if (!(option instanceof z.ZodObject)) return '?';
  const literal = Object.values(option.shape).find((child) => child instanceof z.ZodLiteral);
  return literal instanceof z.ZodLiteral ? String(literal.value) : '?';
}

const fields = fieldsOf(cornerSchema(Number), '');
const texts = fields.map(({ path, description }) => [path, description ?? ''] as const);

/** Paths of the fields whose text fails a condition. */
const failing = (accepts: (text: string) => boolean): string[] =>
  texts.filter(([, text]) => !accepts(text)).map(([path]) => path);

describe('help beside each field of a corner file', () => {
  it('walks the whole schema', () => {
    const paths = fields.map(({ path }) => path);
    expect(paths.length).toBeGreaterThan(400);
    for (const path of [
      'suspension(doubleWishboneRack).hardpoints.lowerJoint.2',
      'parts[](wheel).innerBarrel.[].radius',
      'parts[](hub).mountRectangle.width',
      'parts[](bolts).swingDeg',
      'parts[](box).size.1',
      'pairs.[].zone(slab).thickness',
    ])
      expect(paths).toContain(path);
  });

  it('is there for every field', () => {
    expect(failing((text) => text !== '')).toEqual([]);
  });

  it('is one line of short sentences, each ended by a full stop', () => {
    expect(failing((text) => /^[^\n]*[.]$/.test(text))).toEqual([]);
    expect(failing((text) => text.length <= 300)).toEqual([]);
    const sentences = (text: string) => text.replace(/\d\.\d/g, '0').split(/\. /);
    expect(failing((text) => sentences(text).every((one) => one.split(' ').length <= 28))).toEqual([]);
  });

  it('names other fields in words, as the sheets do', () => {
    const inNames = texts.filter(([, text]) => /\b[a-z]+[A-Z]/.test(text)).map(([path]) => path);
    // Lists of assumed values hold the names of fields.
    expect(inNames.filter((path) => !path.endsWith('assumed'))).toEqual([]);
  });

  it('says what to measure each length and angle with, or that it is chosen', () => {
    const measured = fields.filter(({ measure }) => measure !== undefined);
    expect(measured.length).toBeGreaterThan(200);
    const tool = /\b(tape|vernier caliper|feeler gauges|squares?|protractor|data sheet)\b/;
    const without = measured.filter(
      ({ description = '' }) => !tool.test(description) && !description.includes('Choose it'),
    );
    expect(without.map(({ path }) => path)).toEqual([]);
  });

  it('starts with the dimension itself, not with a word that leaves it out', () => {
    expect(failing((text) => !/^(Of|From|Between|Across|Along|Over|To|As)\b/.test(text))).toEqual([]);
  });
});
