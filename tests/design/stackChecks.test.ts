import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parseDesign } from '../../src/design/parse.ts';
import { type CornerInput, type EntryInput, entryOf, minimalCorner } from './fixtures.ts';

/** Problems of a corner, as `path: message`. */
function problemsOf(source: unknown): string[] {
  const result = parseDesign(JSON.stringify(source));
  return result.kind === 'bad' ? result.problems.map(({ path, message }) => `${path}: ${message}`) : [];
}

/** Problems of the bench corner with some fields of its parts changed. */
function problemLines(
  fields: Partial<Record<CornerInput['parts'][number]['kind'], object>>,
  ...more: Spacer[]
) {
  const corner = minimalCorner();
  for (const [kind, given] of Object.entries(fields)) Object.assign(entryOf(corner, kind as 'hub'), given);
  corner.parts.push(...more);
  return problemsOf(corner);
}

type Spacer = EntryInput<'spacer'>;
const spacer = (given: Partial<Spacer> & Pick<Spacer, 'place'>): Spacer => ({
  id: 'ring',
  kind: 'spacer',
  thickness: 5,
  outerDiameter: 150,
  innerDiameter: 80,
  ...given,
});

const demo = (name: string): { parts: { kind: string }[] } =>
  JSON.parse(readFileSync(new URL(`../../demo-data/${name}.corner.json`, import.meta.url), 'utf8'));

/** Problems of a demo corner with fields of one part changed. */
function problemsOfDemo(name: string, kind: string, given: object) {
  const source = demo(name);
  Object.assign(source.parts.find((part) => part.kind === kind) ?? {}, given);
  return problemsOf(source);
}

describe('the hub and the parts over it, in a demo corner', () => {
  it('rejects a wheel with a bore smaller than the pilot', () => {
    expect(problemsOfDemo('larkrise', 'wheel', { centreBore: 50 })).toEqual([
      'parts[0].centreBore: is 50 mm, and must be at least 56 mm: the pilot goes through it (pilotDiameter of "hub" is 56 mm)',
    ]);
  });

  it('rejects a rotor with a bore smaller than the pilot', () => {
    expect(problemsOfDemo('larkrise', 'rotor', { centreBore: 50 })).toEqual([
      'parts[3].centreBore: is 50 mm, and must be at least 56 mm: the pilot goes through it (pilotDiameter of "hub" is 56 mm)',
    ]);
  });

  it('rejects a flange wider than the inside of the hat', () => {
    expect(problemsOfDemo('larkrise', 'hub', { flangeDiameter: 148 })).toEqual([
      'parts[2].flangeDiameter: is 148 mm, and must be less than 138 mm: the flange turns inside the hat, whose wall is as ' +
        'thick as hatThickness (hatDiameter of "rotor" is 150 mm, hatThickness of "rotor" is 6 mm)',
    ]);
  });

  it('rejects a spigot larger than the bore of the upright', () => {
    expect(problemsOfDemo('stoneyholt', 'hub', { spigotDiameter: 76 })).toEqual([
      expect.stringMatching(/^parts\[\d\]\.hubMount\.bore: is 74 mm, and must be at least 76 mm: the spigot/),
    ]);
  });

  it.each(['gravelbeck', 'gravelbeck-mm', 'larkrise', 'stoneyholt'])('accepts %s unchanged', (name) => {
    expect(problemsOf(demo(name))).toEqual([]);
  });
});

// The bench corner: hat 7 mm thick on the hub's face, pilot of 66 mm, 10 mm long: 3 mm of it are in the wheel.
describe('the pilot', () => {
  it('may be as large as the bores that it reaches', () => {
    expect(problemLines({ wheel: { centreBore: 66 }, rotor: { centreBore: 66 } })).toEqual([]);
    expect(problemLines({ wheel: { centreBore: 65.9 } })).toHaveLength(1);
    expect(problemLines({ rotor: { centreBore: 65.9 } })).toHaveLength(1);
  });

  it('may be larger than the bore of a wheel that it does not reach', () => {
    expect(problemLines({ hub: { pilotLength: 7 }, wheel: { centreBore: 50 } })).toEqual([]);
    expect(problemLines({ hub: { pilotLength: 7.1 }, wheel: { centreBore: 50 } })).toHaveLength(1);
    const thick = spacer({ place: 'wheel', thickness: 3 });
    expect(problemLines({ wheel: { centreBore: 50 } }, thick)).toEqual([]);
    expect(problemLines({ wheel: { centreBore: 50 } }, { ...thick, thickness: 2.9 })).toHaveLength(1);
  });

  it('must fit the spacers under the wheel that it reaches', () => {
    const tight = spacer({ place: 'wheel', innerDiameter: 60 });
    expect(problemLines({}, tight)).toEqual([
      expect.stringMatching(/^parts\[14\]\.innerDiameter: is 60 mm, and must be at least 66 mm/),
    ]);
    expect(problemLines({}, { ...tight, innerDiameter: 66 })).toEqual([]);
    // The pilot ends before the outboard face of a 3 mm spacer.
    expect(problemLines({}, spacer({ place: 'wheel', id: 'first', thickness: 3 }), tight)).toEqual([]);
  });

  it('is not checked against a rotor behind the flange', () => {
    expect(problemLines({ rotor: { centreBore: 60, mount: 'behindFlange' } })).toEqual([]);
  });

  it('distinguishes given values from assumed ones', () => {
    expect(problemLines({ wheel: { centreBore: 50 } })[0]).toContain(
      '(pilotDiameter of "hub" is 66 mm, as assumed)',
    );
    expect(problemLines({ hub: { pilotDiameter: 72 } })).toEqual([
      expect.stringMatching(/^parts\[0\]\.centreBore|parts\[3\]\.centreBore: is 68 mm, as assumed,/),
      expect.anything(),
    ]);
  });
});

// Hat of 165 mm, 7 mm thick: 151 mm inside.
describe('the flange inside the hat', () => {
  it('must be smaller than the inside of the wall', () => {
    expect(problemLines({ hub: { flangeDiameter: 150.9 } })).toEqual([]);
    expect(problemLines({ hub: { flangeDiameter: 151 } })).toHaveLength(1);
  });

  it('may be as large as the hat if the hat has no wall behind its face', () => {
    const flat = { height: 26, thickness: 26, hatThickness: 26 };
    expect(problemLines({ hub: { flangeDiameter: 160 }, rotor: flat })).toEqual([]);
    expect(problemLines({ hub: { flangeDiameter: 160 }, rotor: { ...flat, height: 26.1 } })).toHaveLength(1);
  });

  it('may be larger than a hat that is behind it', () => {
    expect(problemLines({ hub: { flangeDiameter: 168 }, rotor: { mount: 'behindFlange' } })).toEqual([]);
  });

  it('must be smaller than the inside of a friction ring that reaches over it', () => {
    // Flange 12 mm thick; the outboard face of the ring is height - hatThickness - thickness behind the hub's face.
    const ring = { innerDiameter: 139, thickness: 26, height: 7 + 26 + 11.9 };
    expect(problemLines({ rotor: ring })).toEqual([
      expect.stringMatching(
        /^parts\[2\]\.flangeDiameter: is 140 mm, and must be less than 139 mm: .*friction ring/,
      ),
    ]);
    expect(problemLines({ rotor: { ...ring, height: 7 + 26 + 12 } })).toEqual([]);
  });
});

// Pad 170 mm; a 17-inch rim is 436.6 mm at the heel (ISO 4000-2 Table 4, from memory), 394 mm inside its drop centre.
describe('spokes and barrel around the stack', () => {
  it('rejects spokes that run inboard into a flange, hat or spacer wider than the pad', () => {
    const wide = { rotor: { hatDiameter: 190 }, wheel: { spokeDepth: -1 } };
    expect(problemLines(wide)).toEqual([
      expect.stringMatching(/^parts\[0\]\.spokeDepth: is -1 mm, and must be at least 0 mm: the hat is wider/),
    ]);
    expect(problemLines({ ...wide, wheel: { spokeDepth: 0 } })).toEqual([]);
    expect(problemLines({ wheel: { spokeDepth: -20 } })).toEqual([]);
    const ring = spacer({ place: 'wheel', outerDiameter: 200 });
    expect(problemLines({ wheel: { spokeDepth: -1 } }, ring)).toEqual([
      expect.stringMatching(/spokeDepth: .*the spacer is wider/),
    ]);
  });

  it('checks them also in a corner without a hub', () => {
    const corner = minimalCorner();
    corner.parts = corner.parts.filter(({ kind }) => kind === 'wheel');
    corner.parts.push(spacer({ place: 'wheel', outerDiameter: 200 }));
    corner.pairs = [];
    entryOf(corner, 'wheel').spokeDepth = -1;
    expect(problemsOf(corner)).toEqual([expect.stringMatching(/spokeDepth: .*the spacer is wider/)]);
  });

  it('accepts spokes that pass outboard of a hat under a spacer', () => {
    // At the edge of the hat they are 2 / (436.6 - 170) x (190 - 170) of spokeDepth inboard: 5 mm at 66.65 mm.
    const under = (spokeDepth: number) =>
      problemLines({ rotor: { hatDiameter: 190 }, wheel: { spokeDepth } }, spacer({ place: 'wheel' }));
    expect(under(-66.6)).toEqual([]);
    expect(under(-66.7)).toEqual([expect.stringMatching(/must be at least -66\.65 mm/)]);
  });

  it('rejects a flange, hat or spacer that is wider than the barrel', () => {
    const ring = (outerDiameter: number) => spacer({ place: 'wheel', outerDiameter });
    expect(problemLines({}, ring(393.9))).toEqual([]);
    expect(problemLines({}, ring(394.1))).toEqual([
      expect.stringMatching(
        /^parts\[14\]\.outerDiameter: .* must be less than 394 mm: it is inside the barrel/,
      ),
    ]);
    const innerBarrel = [
      { depth: -100, radius: 192 },
      { depth: -50, radius: 160 },
    ];
    expect(problemLines({ wheel: { innerBarrel } }, ring(320))).toHaveLength(1);
    expect(problemLines({ wheel: { innerBarrel } }, ring(319.9))).toEqual([]);
  });
});

// Spigot 76 mm and 20 mm long, bore 80 mm.
describe('the spigot of the bearing housing', () => {
  it('may be as large as the bore, and larger than a bore that it does not reach', () => {
    expect(problemLines({ hub: { spigotDiameter: 80 } })).toEqual([]);
    expect(problemLines({ hub: { spigotDiameter: 80.1 } })).toHaveLength(1);
    expect(problemLines({ hub: { spigotDiameter: 90, spigotLength: 0 } })).toEqual([]);
    const shim = spacer({ place: 'upright', thickness: 20, innerDiameter: 90, outerDiameter: 145 });
    expect(problemLines({ hub: { spigotDiameter: 90 } }, shim)).toEqual([]);
    expect(problemLines({ hub: { spigotDiameter: 90 } }, { ...shim, thickness: 19.9 })).toHaveLength(1);
  });

  it('must fit the spacers before the upright', () => {
    const shim = spacer({ place: 'upright', innerDiameter: 76, outerDiameter: 145 });
    expect(problemLines({}, shim)).toEqual([]);
    expect(problemLines({}, { ...shim, innerDiameter: 75 })).toEqual([
      expect.stringMatching(/^parts\[14\]\.innerDiameter: is 75 mm, and must be at least 76 mm: the spigot/),
    ]);
  });
});

it('skips the checks of the stack while one of its parts cannot be read', () => {
  expect(problemLines({ wheel: { centreBore: 50 }, rotor: { hatThickness: -1 } })).toEqual([
    expect.stringMatching(/^parts\[3\]\.hatThickness/),
  ]);
});
