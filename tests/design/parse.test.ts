import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type ParseResult, parseDesign } from '../../src/design/parse.ts';
import { type CornerInput, minimalCorner } from './fixtures.ts';

const parse = (corner: unknown): ParseResult => parseDesign(JSON.stringify(corner));

/** Problems of the valid corner after `change`. */
function problemsAfter(change: (corner: CornerInput) => void) {
  const corner = minimalCorner();
  change(corner);
  const result = parse(corner);
  return result.kind === 'bad' ? result.problems : [];
}

/** As `path: message`, for short expectations. */
const problemLines = (change: (corner: CornerInput) => void) =>
  problemsAfter(change).map(({ path, message }) => `${path}: ${message}`);

describe('parseDesign', () => {
  it('reads a valid corner: lengths in mm, defaults filled in', () => {
    const result = parse(minimalCorner());
    if (result.kind === 'bad') throw new Error(JSON.stringify(result.problems));
    const { corner, source } = result.design;
    expect(source).toEqual(minimalCorner());
    expect(corner.suspension.travel).toEqual({ bump: 60, droop: 60.325 });
    expect(corner.parts[0]).toMatchObject({ kind: 'wheel', width: 203.2, boltCircle: 114.3, lip: 12.7 });
    expect(corner.parts[3]).toMatchObject({ kind: 'rotor', height: 47.625, mount: 'overStuds' });
  });

  it('rejects rims of half codes, whose dimensions are not known', () => {
    for (const diameterCode of [16.5, 17.5, 19.5, 22.5])
      expect(problemLines((corner) => Object.assign(corner.parts[0], { diameterCode }))).toEqual([
        expect.stringMatching(
          /^parts\[0\]\.diameterCode: is not a whole number\. .* Write a whole code from 8 to 30, or/,
        ),
      ]);
  });

  it('reads a length without a unit in the declared unit, and rejects it if none is declared', () => {
    const typed = { ...minimalCorner(), unit: 'in', name: 'x' };
    Object.assign(typed.parts[0], { width: '8 1/2' });
    const result = parse(typed);
    expect(result.kind === 'ok' && result.design.corner.parts[0]).toMatchObject({ width: 215.9 });
    const { unit: _, ...without } = typed;
    const rejected = parse(without);
    expect(rejected.kind === 'bad' && rejected.problems).toMatchObject([
      { path: 'parts[0].width', found: '"8 1/2"' },
    ]);
    expect(rejected.kind === 'bad' && rejected.problems[0].message).toMatch(/has no unit/);
  });

  it('reports every problem at once, with its path, what was found and what is allowed', () => {
    const problems = problemsAfter((corner) => {
      Object.assign(corner, { side: 'rigth' });
      Object.assign(corner.suspension, { camberDeg: 50 });
      Object.assign(corner.suspension.travel, { bump: '5 furlong' });
      Object.assign(corner.parts[0], { widht: '9 in', boltCount: 5.5 });
      Object.assign(corner.parts[1], { kind: 'tire' });
      Object.assign(corner.parts[3], { hatDiameter: 400 });
      corner.pairs = [{ between: ['calliper', 'wheel'] }];
    });
    expect(problems.map(({ path }) => path)).toEqual([
      'side',
      'suspension.camberDeg',
      'suspension.travel.bump',
      'parts[0].boltCount',
      'parts[0].widht',
      'parts[1].kind',
      'parts[3].hatDiameter',
      'pairs[0].between[0]',
    ]);
    expect(problems.map(({ found }) => found)).toEqual([
      '"rigth"',
      '50',
      '"5 furlong"',
      '5.5',
      '"9 in"',
      '"tire"',
      '400',
      '"calliper"',
    ]);
    const messages = problems.map(({ message }) => message);
    expect(messages[0]).toMatch(/one of "left", "right"\. Did you mean "right"\?/);
    expect(messages[1]).toMatch(/an angle from -15° to 15°: a number of degrees/);
    expect(messages[2]).toMatch(/"furlong" is not a unit/);
    expect(messages[3]).toMatch(/a whole number from 3 to 12/);
    expect(messages[4]).toMatch(/is not a field known here\. Did you mean "width"\?/);
    expect(messages[5]).toMatch(/"rotor".*Did you mean "tyre"\?/);
    expect(messages[6]).toMatch(/is 400 mm, and must be less than diameter \(310 mm\)/);
    expect(messages[7]).toMatch(/Did you mean "caliper"\?/);
  });

  it('accepts a step of assembly for any part except a tyre, which goes on with its wheel', () => {
    expect(problemsAfter(({ parts }) => Object.assign(parts[2], { fitted: 4 }))).toEqual([]);
    const problems = problemsAfter(({ parts }) => {
      Object.assign(parts[0], { fitted: 1.5 });
      Object.assign(parts[1], { fitted: 3 });
      Object.assign(parts[2], { fitted: '2' });
      Object.assign(parts[3], { fitted: -1 });
    });
    expect(problems.map(({ path }) => path)).toEqual([0, 1, 2, 3].map((k) => `parts[${k}].fitted`));
    for (const k of [0, 2, 3]) expect(problems[k].message).toMatch(/a whole number from 0 to 99/);
    expect(problems[1].message).toMatch(/is not a field known here/);
  });

  it('rejects a text that is no corner file, and a file of a later version', () => {
    const only = (value: unknown) => {
      const result = parse(value);
      return result.kind === 'bad' ? result.problems.map((p) => `${p.path}: ${p.message}`) : [];
    };
    expect(only(3)).toEqual([
      expect.stringMatching(/^: is not a corner file.*"daylight.corner", "version": 1/),
    ]);
    expect(only([])).toHaveLength(1);
    expect(only({})).toEqual([expect.stringMatching(/^format: is missing/)]);
    expect(only({ ...minimalCorner(), format: 'other' })).toEqual([
      expect.stringMatching(/^format: is not the format/),
    ]);
    expect(only({ ...minimalCorner(), version: 2 })).toEqual([
      expect.stringMatching(/^version: this file needs a newer Daylight/),
    ]);
    expect(only({ ...minimalCorner(), version: '1' })).toEqual([
      expect.stringMatching(/^version: is not a version/),
    ]);
  });

  it('reports what each kind of value may be', () => {
    const lines = problemLines((corner) => {
      Object.assign(corner, { name: '' });
      Object.assign(corner.suspension, { damper: 5 });
      Object.assign(corner.suspension.hardpoints, { lowerJoint: [0, 700], upperJoint: 'here' });
      Object.assign(corner.parts[0], { id: '9', innerBarrel: [] });
      Object.assign(corner.parts[8], { boltDirection: [0, 0, 0] });
      Object.assign(corner.parts[13], { diameter: -1, from: [0, 1e9, 0] });
      corner.pairs = [
        Object.assign({ between: ['hub', 'rotor'] as [string, string] }, { check: 'no' }) as never,
      ];
    });
    expect(lines).toEqual([
      'name: is not allowed here; write text in double quotes, not empty',
      'suspension.hardpoints.lowerJoint: is not allowed here; write a list [ ] of 3 values',
      'suspension.hardpoints.upperJoint: is not allowed here; write a list [ ] of 3 values',
      'suspension.damper: is not allowed here; write an object { }',
      'parts[0].id: is not allowed here; write a name of letters, digits, - and _ that begins with a letter',
      'parts[0].innerBarrel: is not allowed here; write a list [ ] with enough entries',
      'parts[8].boltDirection: must have at least one number other than 0',
      'parts[13].from[1]: must be between -100 m and 100 m',
      'parts[13].diameter: must be more than 0 and less than 100 m',
      'pairs[0].check: is not allowed here; write true or false',
    ]);
  });

  it('lists the layouts if the suspension names none of them', () => {
    expect(problemLines((corner) => Object.assign(corner.suspension, { layout: 'other' }))).toEqual([
      'suspension.layout: is not allowed here; write "doubleWishboneRack".',
    ]);
  });

  it('never throws, and never pollutes a prototype', () => {
    const corner = minimalCorner();
    const value = fc.oneof(
      fc.jsonValue(),
      fc.constantFrom('__proto__', 'constructor', 1e308, -1, '', '1/0 in'),
    );
    fc.assert(
      fc.property(value, fc.nat(), fc.nat(), (put, at, cut) => {
        expect(['ok', 'bad']).toContain(parse(put).kind);
        const pieces = [
          { ...corner, suspension: put },
          { ...corner, parts: put },
          { ...corner, parts: [put, ...corner.parts.slice(0, at % 14), put] },
          { ...corner, pairs: [put] },
          { ...corner, pairs: [{ between: put }] },
          { ...corner, parts: [...corner.parts.slice(0, 3), { ...corner.parts[at % 14], kind: put }] },
        ];
        for (const piece of pieces) {
          const result = parse(piece);
          if (result.kind === 'bad') expect(result.problems.length).toBeGreaterThan(0);
        }
        const text = JSON.stringify(corner);
        const start = at % text.length;
        expect(['ok', 'bad']).toContain(
          parseDesign(text.slice(0, start) + text.slice(start + (cut % 9))).kind,
        );
      }),
      { numRuns: 150, verbose: 1 },
    );
    const hostile =
      '{"format":"daylight.corner","version":1,"__proto__":{"x":1},"constructor":{"prototype":{"x":1}}}';
    const result = parseDesign(hostile);
    expect(result.kind === 'bad' && result.problems.map(({ path }) => path)).toEqual(
      expect.arrayContaining(['__proto__', 'constructor']),
    );
    expect(({} as Record<string, unknown>).x).toBeUndefined();
  });
});
