import { describe, expect, it } from 'vitest';
import { type CornerInput, minimalCorner } from '../design/fixtures.ts';
import { daylight, textFile } from './run.ts';

/** A file with the parts at the wheel of the bench corner, and bolts. */
function fileWith(bolts: CornerInput['parts'], change: (corner: CornerInput) => void = () => {}): string {
  const corner = minimalCorner();
  corner.parts = corner.parts.filter(({ kind }) => ['wheel', 'tyre', 'hub', 'upright'].includes(kind));
  corner.pairs = [];
  change(corner);
  corner.parts.push(...bolts);
  return textFile(JSON.stringify(corner));
}

const HUB_BOLTS = {
  id: 'hubBolts',
  label: 'Hub bolts',
  kind: 'bolts',
  joins: 'hubMount',
  size: 'M12',
} as const;
const NUTS = { id: 'nuts', kind: 'bolts', joins: 'wheel', size: '1/2-20', washers: false } as const;

describe('bolts', () => {
  it('ends with 0 if each bolt can be reached, and lists the sets, the steps and the holes', async () => {
    const ran = await daylight(['bolts', fileWith([HUB_BOLTS, NUTS])]);
    expect([ran.code, ran.stderr]).toEqual([0, '']);
    // 12 mm of flange and 12 mm of plate, on a washer of 2.7 mm.
    expect(ran.stdout).toContain(
      'Hub bolts: 4 × M12, hex heads inboard, 26.7 mm under the head, 24.0 mm of it in the clamped parts\n' +
        '  heads 7.8 mm high, the largest in ISO 4014 and 4017; washers 2.7 mm thick, the largest in ISO 7089; ' +
        'fasteners to older DIN standards have 19.0 mm across flats: for those, give headAcross\n',
    );
    expect(ran.stdout).toContain('from memory');
    expect(ran.stdout).toContain(
      "nuts: 5 nuts 1/2 in on the hub's studs\n" +
        '  nuts 11.4 mm high, the largest in ASME B18.2.2; self-locking nuts and wheel nuts are higher: give nutHeight\n',
    );
    expect(ran.stdout).toMatch(/^ {2}0: upright\n {2}1: hub, Hub bolts\n {2}3: wheel, nuts$/m);
    expect(ran.stdout).toContain(
      'Every bolt can be put in, turned and taken out in this order, at ride height.',
    );
    expect(ran.stdout).toMatch(
      /hub bolts to the upright's bore: 15\.00 mm, with holes of 13\.50? mm; minimum:\n {4}16\.20? mm: EN 1993-1-8:2005 Table 3\.3/,
    );
    expect(ran.stdout).toContain('not a verdict on strength');
  });

  it('ends with 1 if one cannot be reached, with what is in the way and an order that frees it', async () => {
    const file = fileWith([HUB_BOLTS, { ...NUTS, toolDiameter: '1 1/4 in' }], ({ parts }) => {
      // Behind the first bolt, above the wheel axis, in the place of the socket and its drive.
      parts.push({
        id: 'bracket',
        kind: 'box',
        carrier: 'upright',
        size: [30, 30, 30],
        centre: [0, 800 - 25 - 75 - 12 - 60, 370 + 55],
      });
    });
    const ran = await daylight(['bolts', file, '--unit', 'in']);
    expect([ran.code, ran.stderr]).toEqual([1, '']);
    expect(ran.stdout).toContain(
      'these cannot be reached:\n  Hub bolts 1, socket on its head:\n    bracket: in the way\n' +
        '    to reach it: fit bracket after Hub bolts\n',
    );
    expect(ran.stdout).toContain(
      'To reach them, fit these later:\n  bracket: step 2 instead of 0\n' +
        'Proposed steps of assembly:\n  0: upright\n  1: hub, Hub bolts\n  2: bracket\n  3: wheel, nuts\n',
    );
    expect(ran.stdout).toContain('a socket 1.25 in in diameter');
  });

  it('gives the reasons if no order frees a bolt', async () => {
    const ran = await daylight(['bolts', fileWith([{ ...HUB_BOLTS, headSide: 'outboard', toolLength: 60 }])]);
    expect(ran.code).toBe(1);
    expect(ran.stdout).toMatch(
      /in no order: hub cannot be fitted after Hub bolts, because Hub bolts hold hub housing\n/,
    );
    expect(ran.stdout).toContain('No order of assembly makes all of them reachable.\n');
  });

  it('uses the steps of the file, and ends with 1 if they are in the wrong order', async () => {
    const ran = await daylight(['bolts', fileWith([{ ...HUB_BOLTS, fitted: 0 }, NUTS])]);
    expect(ran.code).toBe(1);
    expect(ran.stdout).toMatch(
      /These steps are in the wrong order:\n {2}Hub bolts in step 0, hub in step 1: Hub bolts hold hub/,
    );
    expect(ran.stdout).toContain('fit these later:\n  Hub bolts: step 1 instead of 0\n');
  });

  it('ends with 2 if it is unknown whether a caliper leaves room for its own bolts', async () => {
    const corner = minimalCorner();
    corner.parts = corner.parts.filter(({ kind }) =>
      ['wheel', 'tyre', 'hub', 'rotor', 'caliper', 'upright'].includes(kind),
    );
    corner.pairs = [];
    corner.parts.push({ ...HUB_BOLTS, id: 'earBolts', label: 'Ear bolts', joins: 'caliperMount' });
    const ran = await daylight(['bolts', textFile(JSON.stringify(corner))]);
    expect([ran.code, ran.stderr]).toEqual([2, '']);
    expect(ran.stdout).toContain(
      'in this order, at ride height, except those listed as unknown.\nUnknown: whether',
    );
    expect(ran.stdout).toContain('covers them (body.length 190.00 mm, mount.boltSpacing 130.00 mm,');
  });

  it('checks nothing without bolts, and names a length that is too short', async () => {
    const none = await daylight(['bolts', fileWith([])]);
    expect(none.code).toBe(0);
    expect(none.stdout).toContain('The corner has no bolts: add parts of kind "bolts".');
    const short = await daylight(['bolts', fileWith([{ ...HUB_BOLTS, length: 2 }])]);
    expect(short.code).toBe(65);
    expect(short.stderr).toMatch(
      /parts\[4\]: length 2\.00 mm does not reach into the last part that the bolts hold/,
    );
  });
});
