import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readJson } from '../../src/design/jsonText.ts';

/** Result of JSON.parse; undefined if it rejects the text. */
function byPlatform(text: string): { value: unknown } | undefined {
  try {
    return { value: JSON.parse(text) };
  } catch {
    return undefined;
  }
}

const messageOf = (text: string) => readJson(text).problems[0]?.message;

describe('reading JSON', () => {
  it('reads any value that JSON.stringify writes', () => {
    fc.assert(
      fc.property(fc.jsonValue({ maxDepth: 6 }), fc.constantFrom('', '  ', '\t'), (value, indent) => {
        const text = JSON.stringify(value, undefined, indent);
        if (text.includes('"__proto__"')) return;
        expect(readJson(text)).toEqual({ kind: 'read', value: JSON.parse(text), problems: [] });
      }),
      { numRuns: 500, verbose: 1 },
    );
  });

  it('accepts and rejects the same texts as JSON.parse, also damaged ones', () => {
    const marks = [...'{}[]",:\\ \n01.5eE+-tfn/u', 'true', 'null', '"a"', '\\u00e9', '\u0001', '\u2028'];
    const damaged = fc
      .tuple(fc.jsonValue({ maxDepth: 3 }), fc.nat(), fc.nat({ max: 3 }), fc.constantFrom('', ...marks))
      .map(([value, at, cut, put]) => {
        const text = JSON.stringify(value);
        const start = at % (text.length + 1);
        return text.slice(0, start) + put + text.slice(start + cut);
      });
    const loose = fc.string({ unit: fc.constantFrom(...marks), maxLength: 12 });
    let accepted = 0;
    fc.assert(
      fc.property(fc.oneof(damaged, loose), (text) => {
        const expected = byPlatform(text);
        const read = readJson(text);
        if (expected === undefined) {
          expect(read.kind).toBe('unreadable');
          return;
        }
        // JSON.parse silently keeps the last of two equal fields, and reads 1e999 as infinite.
        if (read.kind === 'unreadable') expect(read.problems[0].message).toMatch(/too large/);
        else if (read.problems.length === 0) expect(read.value).toEqual(expected.value);
        accepted += read.kind === 'read' ? 1 : 0;
      }),
      { numRuns: 5000, verbose: 1 },
    );
    expect(accepted).toBeGreaterThan(200);
  });

  it.each([
    ['', 'not readable as JSON, at the end of the file: a value is expected'],
    ['[1,]', 'not readable as JSON, line 1, column 4: a value is expected'],
    [
      '{\n  "a": 1\n  "b": 2\n}',
      'not readable as JSON, line 3, column 3: a comma or a closing } is expected',
    ],
    ['{\r\n"a" 1}', 'not readable as JSON, line 2, column 5: a colon is expected after a field name'],
    ["{'a': 1}", 'not readable as JSON, line 1, column 2: a field name in double quotes is expected'],
    ['[1 2]', 'not readable as JSON, line 1, column 4: a comma or a closing ] is expected'],
    ['{} {}', 'not readable as JSON, line 1, column 4: the file should end here'],
    ['["open', /line 1, column 2: this text is not closed/],
    ['[1e999]', /this number is too large/],
  ])('%j', (text, message) => {
    expect(messageOf(text)).toMatch(message);
  });

  it('quotes the text at the place', () => {
    expect(readJson('{\n  "a": 1,\n  b: 2\n}').problems[0].found).toBe('b: 2');
    expect(readJson(`[${'x'.repeat(90)}]`).problems[0].found).toBe(`${'x'.repeat(40)}...`);
  });

  it('rejects fields written twice and __proto__, and reads on', () => {
    const read = readJson('{"a": {"b": 1, "b": 2, "c": 3}, "list": [{"__proto__": {"bad": 1}}]}');
    expect(read).toMatchObject({ kind: 'read', value: { a: { b: 1, c: 3 }, list: [{}] } });
    expect(read.problems.map(({ path }) => path)).toEqual(['a.b', 'list[0].__proto__']);
    expect(({} as Record<string, unknown>).bad).toBeUndefined();
  });

  it('skips a byte order mark, and stops at a depth that no file needs', () => {
    expect(readJson('\uFEFF{"a":1}')).toMatchObject({ kind: 'read', value: { a: 1 } });
    expect(messageOf('['.repeat(100_000))).toMatch(/nest deeper than 60/);
    expect(readJson(JSON.stringify('x'.repeat(5_000_000))).kind).toBe('read');
  });
});
