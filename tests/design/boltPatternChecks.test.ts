import { describe, expect, it } from 'vitest';
import { parseDesign } from '../../src/design/parse.ts';
import { type CornerInput, entryOf, minimalCorner } from './fixtures.ts';

/** Problems of the bench corner after `change`, as `path: message`. */
function problemLines(change: (corner: CornerInput) => void): string[] {
  const corner = minimalCorner();
  change(corner);
  const result = parseDesign(JSON.stringify(corner));
  return result.kind === 'bad' ? result.problems.map(({ path, message }) => `${path}: ${message}`) : [];
}

const withPatterns = (hub: object, wheel: object) =>
  problemLines((corner) => {
    Object.assign(entryOf(corner, 'hub'), hub);
    Object.assign(entryOf(corner, 'wheel'), wheel);
  });

describe('studs in the holes of the wheel', () => {
  // Bolt circles in inches and in mm, as a tyre retailer's chart has them (performanceplustire.com).
  it.each([
    ['4.5 in', 114.3],
    ['4.75 in', 120.65],
    ['5 in', 127],
    ['5.5 in', 139.7],
    ['6.5 in', 165.1],
  ])('accepts studs on %s in holes on %f mm, with no play at all', (inches, mm) => {
    const big = { padDiameter: 220, boltHole: 12 };
    expect(
      problemLines((corner) => {
        Object.assign(entryOf(corner, 'hub'), { boltCircle: inches, flangeDiameter: 190 });
        Object.assign(entryOf(corner, 'wheel'), { boltCircle: mm, ...big });
        Object.assign(entryOf(corner, 'rotor'), { hatDiameter: 210, innerDiameter: 210 });
      }),
    ).toEqual([]);
  });

  // Clearance hole of M12, ISO 273 medium: 13.5 mm. Its play is 1.5 mm, on the circle.
  it('accepts circles that differ by no more than the play in the holes', () => {
    const holes = (boltCircle: number) => withPatterns({ boltCircle: 100 }, { boltHole: 13.5, boltCircle });
    for (const circle of [98.5, 100, 101.5]) expect(holes(circle), `${circle}`).toEqual([]);
    expect(holes(98.4)).toEqual([
      'parts[0].boltCircle: is 98.4 mm, and must be at least 98.5 mm: boltCircle of "hub" is 100 mm, and the holes are ' +
        '1.5 mm wider than the studs',
    ]);
    expect(holes(101.6)).toEqual([expect.stringMatching(/must be at most 101\.5 mm/)]);
  });

  it('rejects studs that are thicker than the holes', () => {
    expect(withPatterns({ studDiameter: 14 }, {})).toEqual([]);
    expect(withPatterns({ studDiameter: 14.1 }, {})).toEqual([
      'parts[0].boltHole: is 14 mm, as assumed, and must be at least 14.1 mm: a stud goes through it (studDiameter of ' +
        '"hub" is 14.1 mm)',
    ]);
  });

  it('rejects a wheel without a hole for each stud', () => {
    expect(withPatterns({ studCount: 4 }, { boltCount: 5 })).toEqual([
      'parts[0].boltCount: is 5, and must be 4 or a multiple of it: each stud needs a hole (studCount of "hub")',
    ]);
    expect(withPatterns({ studCount: 8 }, { boltCount: 4 })).toHaveLength(1);
    expect(withPatterns({ studCount: 4 }, { boltCount: 8 })).toEqual([]);
  });

  it('needs no hole for studs that end below the wheel, but one for each bolt if the hub has no studs', () => {
    // The hat is 7 mm thick.
    expect(withPatterns({ boltCircle: 100, studLength: 7 }, {})).toEqual([]);
    expect(withPatterns({ boltCircle: 100, studLength: 7.1 }, {})).toHaveLength(1);
    expect(withPatterns({ boltCircle: 100, studLength: 0 }, {})).toHaveLength(1);
  });
});

describe('spacers on studs and bolts', () => {
  const withRing = (place: 'wheel' | 'upright', innerDiameter: number, outerDiameter: number, hub = {}) =>
    problemLines((corner) => {
      Object.assign(entryOf(corner, 'hub'), hub);
      corner.parts.push({ id: 'ring', kind: 'spacer', place, thickness: 5, innerDiameter, outerDiameter });
    });

  it('accepts a ring under the wheel only if it has room for the studs: 12 mm on 114.3 mm', () => {
    expect(withRing('wheel', 102.2, 126.4)).toEqual([]);
    expect(withRing('wheel', 102.3, 126.4)).toEqual([
      'parts[14].innerDiameter: is 102.3 mm, and must be less than 102.3 mm: studs of 12 mm go through the ring on a circle ' +
        'of 114.3 mm, as assumed',
    ]);
    expect(withRing('wheel', 102.2, 126.3)).toEqual([
      expect.stringMatching(/^parts\[14\]\.outerDiameter: is 126\.3 mm, and must be more than 126\.3 mm/),
    ]);
  });

  it('accepts a ring behind the housing only if it has room for the bolts to the upright: 12 mm on 110 mm', () => {
    expect(withRing('upright', 97.9, 122.1)).toEqual([]);
    expect(withRing('upright', 98, 122.1)).toHaveLength(1);
    expect(withRing('upright', 97.9, 122)).toHaveLength(1);
  });

  it('checks bolts in a rectangle by its diagonal', () => {
    // 3-4-5: a rectangle of 60 by 80 mm has its corners on 100 mm.
    const rectangle = { mountRectangle: { width: 60, height: 80 } };
    expect(withRing('upright', 87.9, 112.1, rectangle)).toEqual([]);
    expect(withRing('upright', 88, 112.1, rectangle)).toHaveLength(1);
  });

  it('uses the size of the set of bolts if that exceeds mountBoltDiameter', () => {
    const thick = (outerDiameter: number) =>
      problemLines((corner) =>
        corner.parts.push(
          { id: 'ring', kind: 'spacer', place: 'upright', thickness: 5, innerDiameter: 80, outerDiameter },
          { id: 'bolts', kind: 'bolts', joins: 'hubMount', size: 'M16' },
        ),
      );
    expect(thick(126.1)).toEqual([]);
    expect(thick(126)).toHaveLength(1);
  });
});

it('rejects a spigot that reaches the bolts of the housing', () => {
  // 110 - 12 mm.
  const wide = (spigotDiameter: number) =>
    problemLines((corner) => {
      Object.assign(entryOf(corner, 'hub'), { spigotDiameter });
      entryOf(corner, 'upright').hubMount.bore = 100;
    });
  expect(wide(98)).toEqual([]);
  expect(wide(98.1)).toEqual([
    'parts[2].spigotDiameter: is 98.1 mm, and must be at most 98 mm: bolts of 12 mm pass beside it on a circle of 110 mm, ' +
      'as assumed',
  ]);
});

describe('bolts of the hat in the flange', () => {
  const hat = (hatBolts: { count: number; circle: number }, given: { size?: string; rotor?: object } = {}) =>
    problemLines((corner) => {
      Object.assign(entryOf(corner, 'rotor'), { hatBolts, ...given.rotor });
      if (given.size !== undefined)
        corner.parts.push({ id: 'bolts', kind: 'bolts', joins: 'rotor', size: given.size });
    });

  it('rejects a circle that is not within the flange of 140 mm', () => {
    expect(hat({ count: 5, circle: 139.9 })).toEqual([]);
    expect(hat({ count: 5, circle: 140 })).toEqual([
      'parts[3].hatBolts.circle: is 140 mm, and must be less than 140 mm: the bolts go through the flange (flangeDiameter of ' +
        '"hub" is 140 mm)',
    ]);
    expect(hat({ count: 5, circle: 131.9 }, { size: 'M8' })).toEqual([]);
    expect(hat({ count: 5, circle: 132 }, { size: 'M8' })).toHaveLength(1);
    expect(hat({ count: 5, circle: 132 }, { size: 'M8', rotor: { mount: 'behindFlange' } })).toHaveLength(1);
  });

  it('rejects a circle that meets the pilot of 66 mm, if the hat is beside the pilot', () => {
    expect(hat({ count: 5, circle: 74.1 }, { size: 'M8' })).toEqual([]);
    expect(hat({ count: 5, circle: 74 }, { size: 'M8' })).toEqual([
      expect.stringMatching(/must be more than 74 mm: bolts of 8 mm pass beside the pilot/),
    ]);
    expect(hat({ count: 5, circle: 74 }, { size: 'M8', rotor: { mount: 'behindFlange' } })).toEqual([]);
  });

  it('rejects bolts that meet the studs at every angle between the two patterns', () => {
    // On the circle of 5 studs, 5 bolts can be midway: 57.15 x 2 sin 18 degrees = 35.3 mm off. Of 6 bolts, one is within 6
    // degrees of a stud: 57.15 x 2 sin 3 degrees = 5.98 mm.
    expect(hat({ count: 5, circle: 114.3 }, { size: 'M8' })).toEqual([]);
    expect(hat({ count: 6, circle: 114.3 }, { size: 'M8' })).toEqual([
      expect.stringMatching(
        /^parts\[3\]\.hatBolts\.circle: is 114\.3 mm, which puts a bolt within 5\.982 mm of/,
      ),
    ]);
    // Circles further apart than both diameters clear at any angle.
    expect(hat({ count: 6, circle: 94.3 }, { size: 'M8' })).toEqual([]);
  });
});

describe('nuts beside a pilot that reaches out of the wheel', () => {
  // Hat 7 mm and pad 12 mm; M12 nuts 20.78 mm across the corners (18 mm flats, ISO 4032), washers 24 mm (ISO 7089).
  const nuts = (hub: object, washers: boolean) =>
    problemLines((corner) => {
      Object.assign(entryOf(corner, 'hub'), hub);
      Object.assign(entryOf(corner, 'wheel'), { centreBore: 98 });
      Object.assign(entryOf(corner, 'rotor'), { centreBore: 98 });
      corner.parts.push({ id: 'nuts', kind: 'bolts', joins: 'wheel', size: 'M12', washers });
    });

  it('rejects a pilot that reaches the nuts and is too large for them', () => {
    expect(nuts({ pilotDiameter: 90.3, pilotLength: 20 }, true)).toEqual([]);
    expect(nuts({ pilotDiameter: 90.4, pilotLength: 20 }, true)).toEqual([
      expect.stringMatching(
        /^parts\[2\]\.pilotDiameter: is 90\.4 mm, and must be at most 90\.3 mm: it reaches out/,
      ),
    ]);
    expect(nuts({ pilotDiameter: 93.5, pilotLength: 20 }, false)).toEqual([]);
    expect(nuts({ pilotDiameter: 93.6, pilotLength: 20 }, false)).toHaveLength(1);
    expect(nuts({ pilotDiameter: 96, pilotLength: 19 }, true)).toEqual([]);
  });
});
