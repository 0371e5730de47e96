import { describe, expect, it } from 'vitest';
import { parseDesign } from '../../src/design/parse.ts';
import { inWords, lineFault, linesFault, visible, visibleLines } from '../../src/units/plainText.ts';
import { type CornerInput, minimalCorner } from '../design/fixtures.ts';

/** The problems of the valid corner after `change`, as `path: message`. */
function problemsAfter(change: (corner: CornerInput) => void): string[] {
  const corner = minimalCorner();
  change(corner);
  const result = parseDesign(JSON.stringify(corner));
  return result.kind === 'bad' ? result.problems.map(({ path, message }) => `${path}: ${message}`) : [];
}

/** A line break, a screen-clearing escape, a C1 control, bidirectional marks, separators and a zero-width space. */
const UNPRINTED = [
  '\n',
  '\r',
  '\t',
  '\u001b',
  '\u009b',
  '\u202e',
  '\u2066',
  '\u200f',
  '\u061c',
  '\u200b',
].concat(['\u2028', '\u2029', '\ufeff', '\u00ad', '\ud800']);

describe('texts on one line', () => {
  it.each(UNPRINTED.map((character) => [JSON.stringify(visible(character)), character]))(
    'reject %s',
    (_, character) => {
      expect(lineFault(`Rail${character}clear`)).toMatch(/ at character 5\)/);
      expect(visible(`Rail${character}`)).toMatch(/^Rail\\/);
    },
  );

  it('accept letters of every script, technical symbols and joiners that scripts need', () => {
    for (const text of ['Rail ↔ 3⁄8″ ±½°', 'Øvre bærearm', '上控制臂', 'می‌خواهم', 'ذراع', '👩‍🔧'])
      expect(lineFault(text)).toBeUndefined();
  });

  it('name the character and what to do', () => {
    expect(lineFault('a\nb')).toBe('has a line break (U+000A at character 2); write it on one line');
    expect(lineFault('\u202egnp')).toBe(
      'has a character that does not print (U+202E at character 1); remove it',
    );
  });
});

describe('texts of several lines', () => {
  it('keep line ends, tabs and right-to-left marks, and reject other control characters', () => {
    expect(linesFault('one\r\ntwo\n\tthree \u202ertl')).toBeUndefined();
    expect(linesFault('\u001b[31mred')).toBe('has a control character (U+001B at character 1); remove it');
  });
});

describe('visible', () => {
  it('shows each character that does not print as its JSON escape, so that quoted text keeps its meaning', () => {
    for (const character of [...UNPRINTED, '\u{e0041}'])
      expect(JSON.parse(`"${visible(character)}"`)).toBe(character);
    expect(visibleLines('a\nb\rc')).toBe('a\nb\\rc');
  });
});

describe('texts of a corner file', () => {
  const FORGED = 'Rail\nclear   Forged A ↔ Forged B   50.00 ± 0.10';

  it('are rejected by path if a line break or a right-to-left mark could forge output', () => {
    const rejected: [string, (corner: CornerInput) => void][] = [
      ['name', (corner) => Object.assign(corner, { name: FORGED })],
      ['parts[0].label', (corner) => Object.assign(corner.parts[0], { label: FORGED })],
      ['parts[0].label', (corner) => Object.assign(corner.parts[0], { label: 'Wheel \u202e01.0' })],
      ['pairs[0].why', (corner) => Object.assign(corner, { pairs: [{ ...pair, why: FORGED }] })],
      ['parts[1].designation', (corner) => Object.assign(corner.parts[1], { designation: '245/65R17\n' })],
    ];
    const pair = { between: ['wheel', 'rotor'] as [string, string], check: false };
    for (const [path, change] of rejected)
      expect(problemsAfter(change)).toEqual([
        expect.stringMatching(new RegExp(`^${path.replace(/[[\]]/g, '\\$&')}: has a `)),
      ]);
  });

  it('keep the line breaks of a note', () => {
    expect(problemsAfter((corner) => Object.assign(corner, { note: 'one\ntwo' }))).toEqual([]);
    expect(problemsAfter((corner) => Object.assign(corner, { note: 'a\u0007' }))).toEqual([
      'note: has a control character (U+0007 at character 2); remove it',
    ]);
  });

  it('are quoted on one line in problems: unknown fields, ids, lengths and text that is no JSON', () => {
    const problems = [
      ...problemsOf({ ...minimalCorner(), [FORGED]: '\u202e' }),
      ...problemsOf({ ...minimalCorner(), pairs: [{ between: [FORGED, 'wheel'], target: `1\n2 mm` }] }),
      ...problemsOf('{"a": \u202e'),
    ];
    expect(problems.length).toBeGreaterThan(3);
    for (const { path, found, message } of problems)
      expect([path, found, message].map(lineFault)).toEqual([undefined, undefined, undefined]);
  });
});

function problemsOf(source: unknown) {
  const result = parseDesign(typeof source === 'string' ? source : JSON.stringify(source));
  if (result.kind === 'ok') throw new Error('the corner is valid');
  return result.problems;
}

describe('inWords', () => {
  it.each([
    ['outboardDepth', 'outboard depth'],
    ['clockingDeg', 'clocking'],
    ['points[0]', 'points 1'],
    ['wall', 'wall'],
  ])('writes %s as "%s"', (name, words) => {
    expect(inWords(name)).toBe(words);
  });
});
