import { describe, expect, it } from 'vitest';
import { parseDesign } from '../../src/design/parse.ts';
import { valueAt } from '../../src/design/path.ts';
import { kindOf, partKinds } from '../../src/parts/kindOf.ts';
import { type CornerInput, entryOf, minimalCorner } from './fixtures.ts';

/** Problems of the valid corner after `change`, as `path: message`. */
function problemLines(change: (corner: CornerInput) => void): string[] {
  const corner = minimalCorner();
  change(corner);
  const result = parseDesign(JSON.stringify(corner));
  return result.kind === 'bad' ? result.problems.map(({ path, message }) => `${path}: ${message}`) : [];
}

const part = (corner: CornerInput, id: string) => {
  const found = corner.parts.find((one) => one.id === id);
  if (found === undefined) throw new Error(`no part ${id}`);
  return found;
};
const without = (corner: CornerInput, ...ids: string[]) => {
  corner.parts = corner.parts.filter(({ id }) => !ids.includes(id));
  corner.pairs = [];
};
const add = (corner: CornerInput, ...entries: CornerInput['parts']) => corner.parts.push(...entries);

type Case = readonly [what: string, change: (corner: CornerInput) => void, problem: RegExp];

const HUB_BOLTS = { id: 'bolts', kind: 'bolts', joins: 'hubMount', size: 'M12' } as const;

const CASES: readonly Case[] = [
  [
    'bolts of an unknown size',
    (c) => add(c, { ...HUB_BOLTS, size: 'M13' }),
    /^parts\[14\]\.size: is not a known bolt size; write one of M6, .*3\/4 in$/,
  ],
  [
    'a socket head that no table has',
    (c) => add(c, { ...HUB_BOLTS, size: 'M18', head: 'socketHead', headAcross: 27 }),
    /^parts\[14\]\.head: no table has a socket head of M18; give headAcross and headHeight/,
  ],
  [
    'a socket that is no wider than the head is across its corners',
    (c) => add(c, { ...HUB_BOLTS, toolDiameter: 20.7 }),
    /^parts\[14\]\.toolDiameter: is 20\.7 mm, and does not fit over the head or nut: it must be more than 20\.785 mm/,
  ],
  [
    'a wrench that is no wider than its opening',
    (c) => add(c, { ...HUB_BOLTS, tool: 'openWrench', toolDiameter: 18 }),
    /^parts\[14\]\.toolDiameter: is 18 mm, .* it must be more than 18\.116 mm/,
  ],
  [
    'two sets of bolts of one joint',
    (c) => add(c, HUB_BOLTS, { ...HUB_BOLTS, id: 'more' }),
    /^parts\[15\]\.joins: parts\[14\] is already the bolts of the hubMount/,
  ],
  [
    'bolts of a caliper that is not there',
    (c) => {
      without(c, 'caliper');
      add(c, { ...HUB_BOLTS, joins: 'caliperMount' });
    },
    /^parts\[13\]\.joins: needs a part of kind "caliper": the bolts hold it/,
  ],
  [
    'bolts of a rotor without holes for them',
    (c) => add(c, { ...HUB_BOLTS, joins: 'rotor' }),
    /^parts\[14\]\.joins: needs a rotor with holes for the bolts: give the rotor its hatBolts/,
  ],
  [
    'the swing of a socket',
    (c) => add(c, { ...HUB_BOLTS, swingDeg: 30 }),
    /^parts\[14\]\.swingDeg: applies to wrenches only, and tool is "socket"; remove it/,
  ],
  [
    'the head of a nut on a stud',
    (c) => add(c, { ...HUB_BOLTS, joins: 'wheel', headHeight: 8 }),
    /^parts\[14\]\.headHeight: applies to bolts only, and the wheel has nuts on the hub's studs; remove it/,
  ],
  [
    'a counterbore on a nut on a stud',
    (c) => add(c, { ...HUB_BOLTS, joins: 'wheel', counterboreDepth: 3 }),
    /^parts\[14\]\.counterboreDepth: applies to bolts only, and the wheel has nuts on the hub's studs; remove it/,
  ],
  [
    'a counterbore without a diameter',
    (c) => add(c, { ...HUB_BOLTS, counterboreDepth: 3 }),
    /^parts\[14\]\.counterboreDiameter: is missing: a counterbore needs its diameter and its depth/,
  ],
  [
    'a counterbore narrower than the washer in it',
    // A tool on the nut alone; ISO 7089: the washer for M12 is 24 mm wide.
    (c) => add(c, { ...HUB_BOLTS, nut: true, toolOn: 'nut', counterboreDiameter: 23.9, counterboreDepth: 3 }),
    /^parts\[14\]\.counterboreDiameter: is 23\.9 mm, and must be at least 24 mm: the washer goes into it/,
  ],
  [
    'a counterbore narrower than the corners of the head in it',
    // ISO 4014: 18 mm across the flats of an M12 head, 18 / cos 30° = 20.785 mm across its corners.
    (c) =>
      add(c, {
        ...HUB_BOLTS,
        nut: true,
        toolOn: 'nut',
        washers: false,
        counterboreDiameter: 20.7,
        counterboreDepth: 3,
      }),
    /^parts\[14\]\.counterboreDiameter: is 20\.7 mm, and must be at least 20\.785 mm: the head goes into it/,
  ],
  [
    'a counterbore narrower than the socket that goes round the head in it',
    (c) =>
      add(c, {
        ...HUB_BOLTS,
        toolDiameter: 25,
        washers: false,
        counterboreDiameter: 24.9,
        counterboreDepth: 3,
      }),
    /^parts\[14\]\.counterboreDiameter: is 24\.9 mm, and must be at least 25 mm: the socket goes into it/,
  ],
  [
    'a wrench on a head in a counterbore',
    (c) => add(c, { ...HUB_BOLTS, tool: 'openWrench', counterboreDiameter: 40, counterboreDepth: 3 }),
    /^parts\[14\]\.tool: is "openWrench", which cannot reach a head in a counterbore; write "socket"/,
  ],
  [
    'a nut that is not there',
    (c) => add(c, { ...HUB_BOLTS, nutHeight: 8, toolOn: 'nut' }),
    /^parts\[14\]\.nutHeight: applies to nuts only; remove it, or write "nut": true/,
  ],
  [
    'a tool on a nut that is not there',
    (c) => add(c, { ...HUB_BOLTS, toolOn: 'nut' }),
    /^parts\[14\]\.toolOn: is "nut", but the bolts have no nuts/,
  ],
  [
    'a wrench on a socket head',
    (c) => add(c, { ...HUB_BOLTS, head: 'socketHead', tool: 'boxWrench' }),
    /^parts\[14\]\.tool: is "boxWrench", which cannot turn a socket head; write "socket" for a key$/,
  ],
  [
    'a wrench on a socket head and a nut',
    (c) => add(c, { ...HUB_BOLTS, head: 'socketHead', nut: true, tool: 'openWrench' }),
    /^parts\[14\]\.tool: is "openWrench", .*; write "socket" for a key, or "toolOn": "nut" to turn the nuts only$/,
  ],
  [
    'a washer that is not there',
    (c) => add(c, { ...HUB_BOLTS, washers: false, washerDiameter: 24 }),
    /^parts\[14\]\.washerDiameter: applies to washers only, and washers is false; remove it/,
  ],
  [
    'the drive of a wrench',
    (c) => add(c, { ...HUB_BOLTS, tool: 'openWrench', driveLength: 75 }),
    /^parts\[14\]\.driveLength: applies to sockets only, and tool is "openWrench"; remove it/,
  ],
  [
    'an id used twice',
    (c) => Object.assign(part(c, 'rotor'), { id: 'hub' }),
    /^parts\[3\]\.id: is also the id of parts\[2\]/,
  ],
  [
    'a second wheel',
    (c) => add(c, { ...entryOf(c, 'wheel'), id: 'spare' }),
    /^parts\[14\]\.kind: parts\[0\] is already the wheel/,
  ],
  [
    'a second tyre',
    (c) => add(c, { ...entryOf(c, 'tyre'), id: 'spare' }),
    /^parts\[14\]\.kind: .*already the tyre/,
  ],
  [
    'a second hub',
    (c) => add(c, { ...entryOf(c, 'hub'), id: 'other' }),
    /^parts\[14\]\.kind: .*already the hub/,
  ],
  [
    'a second upright',
    (c) => add(c, { ...entryOf(c, 'upright'), id: 'other' }),
    /^parts\[14\]\.kind: .*already the upright/,
  ],
  [
    'a second lower arm',
    (c) => Object.assign(part(c, 'upperArm'), { arm: 'lower' }),
    /^parts\[7\]\.arm: parts\[6\] is already the lower arm/,
  ],
  [
    'a second joint at a place',
    (c) => Object.assign(part(c, 'upperUniball'), { at: 'lowerJoint' }),
    /^parts\[9\]\.at: parts\[8\] is already the joint at lowerJoint/,
  ],
  ['a tyre without a wheel', (c) => without(c, 'wheel'), /^parts\[0\]\.kind: needs a part of kind "wheel"/],
  [
    'a caliper without a rotor',
    (c) => without(c, 'rotor'),
    /^parts\[3\]\.kind: needs a part of kind "rotor"/,
  ],
  ['an upright without a hub', (c) => without(c, 'hub'), /^parts\[4\]\.kind: needs a part of kind "hub"/],
  [
    'a rotor behind the flange of no hub',
    (c) => {
      Object.assign(part(c, 'rotor'), { mount: 'behindFlange' });
      without(c, 'hub', 'upright');
    },
    /^parts\[2\]\.mount: needs a part of kind "hub"/,
  ],
  [
    'a spacer behind the housing of no hub',
    (c) => {
      without(c, 'hub', 'upright');
      add(c, {
        id: 's',
        kind: 'spacer',
        place: 'upright',
        thickness: 5,
        outerDiameter: 100,
        innerDiameter: 60,
      });
    },
    /^parts\[12\]\.place: needs a part of kind "hub"/,
  ],
  [
    'a damper without mounts',
    (c) => delete c.suspension.damper,
    /^parts\[12\]\.kind: a damper needs its mounts: write them as suspension\.damper/,
  ],
  [
    'a part on the rod of no damper',
    (c) => {
      delete c.suspension.damper;
      without(c, 'damper');
      Object.assign(part(c, 'lowerRail'), { carrier: 'damperRod' });
    },
    /^parts\[12\]\.carrier: needs a damper/,
  ],
  [
    'neither offset nor backspacing',
    (c) => delete entryOf(c, 'wheel').offset,
    /^parts\[0\]\.offset: is missing; give the wheel its offset or its backspacing/,
  ],
  [
    'offset and backspacing',
    (c) => Object.assign(part(c, 'wheel'), { backspacing: '5 1/2 in' }),
    /^parts\[0\]\.backspacing: is given as well as offset/,
  ],
  [
    'stations of the barrel out of order',
    (c) => {
      entryOf(c, 'wheel').innerBarrel = [
        { depth: -100, radius: 200 },
        { depth: '-4 in', radius: 198 },
        { depth: -20, radius: 196 },
      ];
    },
    /^parts\[0\]\.innerBarrel\[1\]\.depth: must be more than the depth of the station before it \(-100 mm\)/,
  ],
  [
    'flanges that run into each other',
    (c) => Object.assign(part(c, 'hub'), { mountDepth: 20 }),
    /^parts\[2\]\.mountDepth: must be at least .*\(24 mm\)/,
  ],
  [
    'a caliper whose bridge the rotor fills',
    (c) => Object.assign(entryOf(c, 'caliper').body, { outerRadius: 158 }),
    /^parts\[4\]\.body\.outerRadius: must be more than .*\(158 mm\)/,
  ],
  [
    'a caliper outside the rotor',
    (c) => Object.assign(entryOf(c, 'caliper').body, { innerRadius: 155 }),
    /^parts\[4\]\.body\.innerRadius: must be less than the rotor's radius/,
  ],
  [
    'ears further apart than their circle',
    (c) => Object.assign(entryOf(c, 'caliper').mount, { boltSpacing: 250 }),
    /^parts\[4\]\.mount\.boltSpacing: must be less than twice boltRadius \(250 mm\)/,
  ],
  [
    'a shank on a cup',
    (c) => Object.assign(part(c, 'tieRodEnd'), { form: 'cup' }),
    /^parts\[10\]\.shankDiameter: applies to joints of form "rodEnd" only/,
  ],
  [
    'half a shank',
    (c) => {
      const joint = part(c, 'tieRodEnd');
      if (joint.kind === 'joint') delete joint.shankLength;
    },
    /^parts\[10\]\.shankLength: is missing; a shank needs it as well as shankDiameter/,
  ],
  [
    'a damper longer than its mounts',
    (c) => Object.assign(part(c, 'damper'), { bodyLength: 460 }),
    /^parts\[12\]\.bodyLength: must be less than the 452\.1\d* mm between/,
  ],
  [
    'a tube of no length',
    (c) => Object.assign(part(c, 'lowerRail'), { to: [-400, 240, 190] }),
    /^parts\[13\]\.to: is the same point as from/,
  ],
  [
    'a plate of no area',
    (c) =>
      add(c, {
        id: 'tab',
        kind: 'plate',
        thickness: 5,
        outline: [
          [0, 0, 1],
          [10, 0, 1],
          [20, 0, 1],
        ],
      }),
    /^parts\[14\]\.outline: encloses no area/,
  ],
  [
    'a size that is no tyre',
    (c) => Object.assign(part(c, 'tyre'), { designation: 'wide' }),
    /^parts\[1\]\.designation: is not a tyre size/,
  ],
  [
    'a numeric size without measured dimensions',
    (c) => Object.assign(part(c, 'tyre'), { designation: '6.50-17' }),
    /^parts\[1\]\.designation: gives neither overall diameter nor section width/,
  ],
  [
    'a tyre for another rim',
    (c) => Object.assign(part(c, 'tyre'), { designation: '245/70R16' }),
    /^parts\[1\]\.designation: is for a 16-inch rim, but the wheel's diameterCode is 17/,
  ],
  [
    'an unknown part in a pair',
    (c) => (c.pairs = [{ between: ['wheel', 'calipper'] }]),
    /^pairs\[0\]\.between\[1\]: is not the id of a part\. Did you mean "caliper"\?/,
  ],
  [
    'a solid that the part does not have',
    (c) => (c.pairs = [{ between: ['wheel', 'hub.rod'] }]),
    /^pairs\[0\]\.between\[1\]: is not the id of a part/,
  ],
  [
    'a pair of one part',
    (c) => (c.pairs = [{ between: ['wheel', 'wheel'] }]),
    /^pairs\[0\]\.between: names the same part twice/,
  ],
  [
    'a pair with two rules',
    (c) => (c.pairs = [{ between: ['wheel', 'rotor'] }, { between: ['rotor', 'wheel'], target: 4 }]),
    /^pairs\[1\]\.between: is also the pair of pairs\[0\]/,
  ],
  [
    'an unchecked pair without a reason',
    (c) => (c.pairs = [{ between: ['wheel', 'rotor'], check: false }]),
    /^pairs\[0\]\.why: is missing/,
  ],
  [
    'an arm with one pivot',
    (c) => (c.suspension.hardpoints.lowerArmRear = [150, 300, 230]),
    /^suspension\.hardpoints\.lowerArmRear: is the same point as lowerArmFront/,
  ],
  [
    'a joint on its pivot line',
    (c) => (c.suspension.hardpoints.upperJoint = [350, 360, 510]),
    /^suspension\.hardpoints\.upperJoint: lies on the line of the upper arm's pivots/,
  ],
  [
    'a tie rod of no length',
    (c) => (c.suspension.hardpoints.tieRodInner = [120, 695, 300]),
    /^suspension\.hardpoints\.tieRodOuter: is the same point as tieRodInner/,
  ],
  [
    'a tie rod on the steering axis',
    (c) => (c.suspension.hardpoints.tieRodOuter = [-10, 690, 370]),
    /^suspension\.hardpoints\.tieRodOuter: lies on the steering axis/,
  ],
  [
    'one joint for both arms',
    (c) => (c.suspension.hardpoints.upperJoint = [0, 700, 220]),
    /^suspension\.hardpoints\.upperJoint: is the same point as lowerJoint/,
  ],
  [
    'a right corner with Y negative',
    (c) => (c.suspension.hardpoints.wheelCentre = [0, -800, 370]),
    /^suspension\.hardpoints\.wheelCentre\[1\]: must be more than 0: the file holds a left corner/,
  ],
  [
    'a wheel centre under the ground',
    (c) => (c.suspension.hardpoints.wheelCentre = [0, 800, -30]),
    /^suspension\.hardpoints\.wheelCentre\[2\]: is -30 mm above the ground, and must be more than 0: .*originHeight$/,
  ],
  [
    'a damper of no length',
    (c) => (c.suspension.damper!.armMount = [20, 380, 640]),
    /^suspension\.damper\.armMount: is the same point as chassisMount/,
  ],
  [
    'no travel',
    (c) => (c.suspension.travel = { bump: 0, droop: 0 }),
    /^suspension\.travel: has neither bump nor droop/,
  ],
];

describe('fields that contradict each other', () => {
  it('accepts the corner that each case changes', () => {
    expect(problemLines(() => {})).toEqual([]);
  });

  it.each(CASES)('%s', (_, change, problem) => {
    expect(problemLines((corner) => void change(corner))).toEqual(
      expect.arrayContaining([expect.stringMatching(problem)]),
    );
  });

  it('rejects each dimension that must be the smaller, if it is the larger', () => {
    const tried = partKinds().flatMap((kind) =>
      kindOf(kind).order.map(([smaller, relation, larger]) => {
        const lines = problemLines((corner) => {
          add(corner, {
            id: 's',
            kind: 'spacer',
            place: 'wheel',
            thickness: 5,
            outerDiameter: 99,
            innerDiameter: 60,
          });
          entryOf(corner, 'rotor').hatBolts = { count: 5, circle: 130 };
          entryOf(corner, 'hub').mountRectangle = { width: 70, height: 60 };
          Object.assign(entryOf(corner, 'joint'), {
            boltHead: { diameter: 28, height: 14 },
            spacers: { diameter: 20, length: 12 },
          });
          const entry = entryOf(corner, kind);
          const steps = smaller.split('.');
          const holder = valueAt(entry, steps.slice(0, -1)) as Record<string, unknown>;
          holder[steps[steps.length - 1]] = 990;
          // Breaks this rule alone, for any default of the larger dimension.
          const others = larger.split('.');
          const otherHolder = valueAt(entry, others.slice(0, -1)) as Record<string, unknown>;
          otherHolder[others[others.length - 1]] = relation === '<' ? 990 : 989;
        });
        const named = lines.some(
          (line) => line.includes(`].${smaller}: is 990 mm`) && line.includes(` ${larger} (`),
        );
        expect(named, `${kind} ${smaller} ${relation} ${larger}: ${lines.join('; ')}`).toBe(true);
        return smaller;
      }),
    );
    expect(tried.length).toBeGreaterThan(18);
  });

  it('accepts equal dimensions if the rule allows them', () => {
    expect(problemLines((c) => Object.assign(part(c, 'hub'), { housingDiameter: 140 }))).toEqual([]);
    expect(problemLines((c) => Object.assign(part(c, 'hub'), { housingDiameter: 140.1 }))).toHaveLength(1);
  });

  it('marks a default in a contradiction as assumed', () => {
    expect(problemLines((c) => Object.assign(part(c, 'hub'), { mountFlangeDiameter: 105 }))).toEqual([
      'parts[2].mountBoltCircle: is 110 mm, as assumed, and must be less than mountFlangeDiameter (105 mm)',
    ]);
  });

  it('accepts pairs that name the solids of a hub and a damper', () => {
    const between: [string, string][] = [
      ['hub', 'lowerArm'],
      ['hub.housing', 'lowerArm'],
      ['damper.body', 'upperArm'],
      ['damper.rod', 'upperArm'],
    ];
    expect(problemLines((c) => (c.pairs = between.map((ids) => ({ between: ids }))))).toEqual([]);
  });

  it('accepts several rotors and spacers, and an unchecked pair with a reason', () => {
    expect(
      problemLines((c) => {
        add(c, { ...entryOf(c, 'rotor'), id: 'rotor2', mount: 'behindFlange' });
        c.pairs = [{ between: ['rotor', 'rotor2'], check: false, why: 'two of a kind' }];
      }),
    ).toEqual([]);
  });

  it('does not miss a needed part while a part has an unknown kind', () => {
    expect(problemLines((c) => Object.assign(part(c, 'wheel'), { kind: 'whel' }))).toEqual([
      expect.stringMatching(/^parts\[0\]\.kind: .*Did you mean "wheel"\?/),
    ]);
  });
});
