import { describe, expect, it } from 'vitest';
import { problemInWords } from '../../src/app/state/fieldText.ts';
import { parseDesign } from '../../src/design/parse.ts';
import { buildSolids } from '../../src/solids/catalogue.ts';
import { chordProblems } from '../../src/sweep/chordProblems.ts';
import { lengthText } from '../../src/units/formatLength.ts';
import { DesignProblems } from '../../src/units/problem.ts';
import { type CornerInput, entryOf, minimalCorner } from './fixtures.ts';

type Change = (corner: CornerInput) => void;

function read(unit: 'mm' | 'in', change: Change) {
  const corner = { ...minimalCorner(), unit };
  change(corner);
  return parseDesign(JSON.stringify(corner));
}

function problemLines(unit: 'mm' | 'in', change: Change): string[] {
  const result = read(unit, change);
  return result.kind === 'bad' ? result.problems.map(({ path, message }) => `${path}: ${message}`) : [];
}

/** Contradictions, each with its message in a file in inches. */
const CONTRADICTIONS: [what: string, change: Change, inches: RegExp][] = [
  [
    'an order of dimensions',
    (c) => Object.assign(entryOf(c, 'rotor'), { hatDiameter: '12 1/4 in' }),
    /is 12\.25 in, and must be less than diameter \(12\.2047 in\)/,
  ],
  [
    'a clamped stack',
    (c) => Object.assign(entryOf(c, 'wheel'), { centreBore: '2 1/2 in' }),
    /is 2\.5 in, and must be at least 2\.\d+ in: the pilot goes through it \(pilotDiameter of "hub" is 2\.\d+ in/,
  ],
  [
    'a circle of bolts',
    (c) => Object.assign(entryOf(c, 'wheel'), { boltCircle: '5 in' }),
    /boltCircle: is 5 in, and must be at most 4\.\d+ in: boltCircle of "hub" is 4\.5 in, .* 0\.0787 in wider/,
  ],
  [
    "the damper's mounts",
    (c) => Object.assign(entryOf(c, 'damper'), { bodyLength: '30 in' }),
    /must be less than the \d+\.\d+ in between the damper's mounts/,
  ],
  [
    'a wheel under the ground',
    (c) => Object.assign(c.suspension.hardpoints, { wheelCentre: [0, 800, '-1 in'] }),
    /is -1 in above the ground/,
  ],
];

describe('problems of a file in inches', () => {
  it.each(CONTRADICTIONS)('show lengths in inches: %s', (_, change, inches) => {
    const lines = problemLines('in', change);
    expect(lines).toEqual(expect.arrayContaining([expect.stringMatching(inches)]));
    expect(lines.join('\n')).not.toMatch(/\bmm\b/);
  });

  it.each(CONTRADICTIONS)('show lengths in mm if the file is in mm: %s', (_, change) => {
    const lines = problemLines('mm', change);
    expect(lines.length).toBeGreaterThan(0);
    expect(lines.join('\n')).not.toMatch(/\d in\b/);
  });

  it('show lengths in inches if a part cannot be built, or is too small for the mesh', async () => {
    const result = read('in', (c) => Object.assign(entryOf(c, 'wheel'), { dropDepth: '1/32 in' }));
    if (result.kind === 'bad') throw new Error(JSON.stringify(result.problems));
    const failed = await buildSolids(result.design.corner, 0.5).catch((error: unknown) => error);
    if (!(failed instanceof DesignProblems)) throw failed;
    expect(failed.problems.map(({ message }) => message)).toEqual(
      expect.arrayContaining([
        expect.stringMatching(
          /^dropDepth 0\.0313 in does not reach below the bead seats, .* 0\.\d+ in: measure/,
        ),
      ]),
    );
    const small = chordProblems(result.design.corner, 5);
    expect(small.length).toBeGreaterThan(0);
    for (const { found, message } of small)
      expect(`${found} ${message}`).toMatch(/^\S+ in is .* 0\.1969 in;/);
  });
});

describe('a limit in a problem', () => {
  it('is rounded to the side on which it still holds; an exact value is not changed', () => {
    expect(lengthText(66.9999, 'in', 'up')).toBe('2.6378 in');
    expect(lengthText(67.001, 'in', 'up')).toBe('2.6379 in');
    expect(lengthText(67.001, 'in', 'down')).toBe('2.6378 in');
    expect(lengthText(38.1, 'in', 'up')).toBe('1.5 in');
    expect(lengthText(38.1, 'in', 'down')).toBe('1.5 in');
    expect(lengthText(0.1 + 0.2, 'mm', 'up')).toBe('0.3 mm');
    expect(lengthText(12.3456, undefined)).toBe('12.346 mm');
  });
});

describe('a problem on the workbench', () => {
  it('names fields and parts as the sheets do', () => {
    const source = {
      parts: [
        { id: 'hub', kind: 'hub', label: 'Front hub' },
        { id: 'rotor-2', kind: 'rotor' },
      ],
    };
    expect(
      problemInWords(
        'is 2.5 in, and must be at least 2.6 in: the pilot goes through it (pilotDiameter of "hub" is 2.6 in)',
        source,
      ),
    ).toBe(
      'is 2.5 in, and must be at least 2.6 in: the pilot goes through it (pilot diameter of "Front hub" is 2.6 in)',
    );
    expect(problemInWords('must be less than hatBolts.circle (4 in). Give "toolOn": "nut"', source)).toBe(
      'must be less than hat bolts, circle (4 in). Give "toolOn": "nut"',
    );
    expect(problemInWords('is also the id of parts[0]; "rotor-2" has one', source)).toBe(
      'is also the id of parts[0]; "rotor-2" has one',
    );
  });
});
