import { describe, expect, it } from 'vitest';
import type { Carrier, Corner, PairEntry } from '../../src/design/schema.ts';
import type { Attachment, Seat, Solid, SolidKind, Zone } from '../../src/solids/solid.ts';
import { planPairs } from '../../src/sweep/pairs.ts';
import { DesignProblems } from '../../src/units/problem.ts';

/** Opposite corners of a 400 mm box. */
const BOX = {
  positions: Float64Array.from([0, 0, 0, 400, 400, 400]),
  triangles: new Uint32Array(),
};

function solid(
  id: string,
  kind: SolidKind,
  carrier: Carrier,
  partIndex: number,
  attachments: Attachment[] = [],
  seats: Seat[] = [],
): Solid {
  return {
    id,
    label: id,
    kind,
    carrier,
    partIndex,
    attachments,
    seats,
    mesh: BOX,
    shown: undefined,
    chordErrorMm: 0,
    volumeMm3: 0,
    allowanceMm: partIndex === 0 ? 0.5 : 0.25,
  };
}

const LOWER_JOINT: Attachment = { name: 'lowerJoint', at: [0, 700, 200] };

const IN_BOSS: Zone = {
  shape: 'slab',
  centre: [0, 700, 230],
  axis: [0, 0, 1],
  halfThicknessMm: 10,
  radiusMm: 9,
  what: "joint's bolt in the boss",
};

const SOLIDS = [
  solid('wheel', 'wheel', 'wheel', 0),
  solid('tyre', 'tyre', 'wheel', 1),
  solid('hub', 'hub', 'wheel', 2),
  solid('hub.housing', 'bearingHousing', 'upright', 2),
  solid('rotor', 'rotor', 'wheel', 3),
  solid('caliper', 'caliper', 'upright', 4),
  solid('lowerArm', 'controlArm', 'lowerArm', 5, [LOWER_JOINT]),
  solid('uniball', 'joint', 'lowerArm', 6, [LOWER_JOINT]),
  solid('uniball.bolt', 'jointBolt', 'upright', 6, [LOWER_JOINT], [{ solidId: 'upright', zones: [IN_BOSS] }]),
  solid('upright', 'upright', 'upright', 7, [LOWER_JOINT]),
  solid('rail', 'tube', 'chassis', 8),
  solid('hoop', 'tube', 'chassis', 9),
];

const IDS = ['wheel', 'tyre', 'hub', 'rotor', 'caliper', 'lowerArm', 'uniball', 'upright', 'rail', 'hoop'];

function plan(entries: PairEntry[] = []) {
  const hardpoints = {
    lowerArmFront: [100, 400, 200],
    lowerArmRear: [-100, 400, 200],
    lowerJoint: LOWER_JOINT.at,
    upperArmFront: [100, 400, 400],
    upperArmRear: [-100, 400, 400],
    upperJoint: [0, 690, 420],
    tieRodInner: [-150, 350, 300],
    tieRodOuter: [-150, 690, 310],
  };
  const corner = {
    parts: IDS.map((id) => ({ id })),
    pairs: entries,
    suspension: { layout: 'doubleWishboneRack', hardpoints },
  } as unknown as Corner;
  const { pairs, unchecked } = planPairs(corner, SOLIDS);
  const named = <T extends { a: number; b: number }>(list: T[]) =>
    new Map(list.map((one) => [`${SOLIDS[one.a].id} ${SOLIDS[one.b].id}`, one]));
  return { pairs: named(pairs), unchecked: named(unchecked) };
}

describe('planning pairs', () => {
  it('puts every pair of solids in one list, once', () => {
    const { pairs, unchecked } = plan();
    expect(pairs.size + unchecked.size).toBe((SOLIDS.length * (SOLIDS.length - 1)) / 2);
    for (const name of pairs.keys()) expect(unchecked.has(name)).toBe(false);
  });

  it('skips only permanently joined pairs, with the reason', () => {
    expect([...plan().unchecked].map(([name, { why }]) => `${name}: ${why}`)).toEqual([
      'wheel tyre: the tyre is mounted on the wheel',
      'wheel hub: clamped together on the studs',
      'hub hub.housing: two bodies of one part',
      'hub rotor: clamped together on the studs; the stud holes of a rotor are not measured',
      'lowerArm uniball: both are fixed to the lower arm',
      'rail hoop: both are fixed to the chassis',
    ]);
  });

  it('lists the dimension checks that cover an unmeasured pair, and none if there are none', () => {
    const { unchecked } = plan([{ between: ['wheel', 'tyre'], check: false, why: 'as drawn by hand' }]);
    const covered = (name: string) => unchecked.get(name)?.coveredBy;
    expect(covered('wheel hub')).toEqual([
      'pilot in bores',
      'studs in wheel holes',
      'spokes clear of hub, hat and spacers',
      'hub, hat and spacers inside barrel',
    ]);
    expect(covered('hub rotor')).toEqual(['pilot in bores', 'flange in hat']);
    expect(covered('hub hub.housing')).toEqual(['hub flanges apart']);
    expect(covered('rail hoop')).toBeUndefined();
    // The file excludes the pair: no dimension check replaces it.
    expect(unchecked.get('wheel tyre')).toMatchObject({ why: 'the file says so: as drawn by hand' });
    expect(covered('wheel tyre')).toBeUndefined();
    expect(plan().unchecked.get('wheel tyre')?.coveredBy).toEqual(['rim diameter of tyre']);
  });

  it('measures two rotors against each other', () => {
    const solids = [solid('rotor', 'rotor', 'wheel', 0), solid('rotor2', 'rotor', 'wheel', 1)];
    const corner = { parts: [{ id: 'rotor' }, { id: 'rotor2' }], pairs: [] } as unknown as Corner;
    expect(planPairs(corner, solids)).toMatchObject({ pairs: [{ a: 0, b: 1 }], unchecked: [] });
  });

  it('marks pairs as moving, except those of wheel and upright, which move together', () => {
    const { pairs } = plan();
    expect(pairs.get('wheel caliper')?.moves).toBe(false);
    expect(pairs.get('wheel rotor')?.moves).toBe(false);
    expect(pairs.get('wheel lowerArm')?.moves).toBe(true);
    expect(pairs.get('lowerArm rail')?.moves).toBe(true);
  });

  it('takes zones from seats only', () => {
    const { pairs } = plan();
    expect(pairs.get('uniball.bolt upright')?.zones).toEqual([IN_BOSS]);
    for (const name of ['lowerArm upright', 'uniball upright', 'uniball uniball.bolt', 'wheel upright'])
      expect(pairs.get(name)?.zones, name).toEqual([]);
  });

  it("measures a joint's bolt against its own housing and arm, with a target of 0", () => {
    const { pairs } = plan();
    for (const name of ['uniball uniball.bolt', 'lowerArm uniball.bolt'])
      expect(pairs.get(name), name).toMatchObject({ moves: true, targetMm: 0 });
  });

  it('gives each target with its origin and adds both allowances', () => {
    const { pairs } = plan();
    expect(pairs.get('wheel caliper')).toMatchObject({ targetMm: 3.175, allowanceMm: 0.75 });
    expect(pairs.get('tyre rail')).toMatchObject({ targetMm: 25, allowanceMm: 0.5 });
    expect(pairs.get('wheel lowerArm')?.targetMm).toBe(6.35);
    for (const [name, { targetMm, targetOrigin }] of pairs) {
      const isJoined = /uniball.bolt (upright)|(lowerArm|uniball) uniball.bolt|wheel rotor/.test(name);
      if (!isJoined) expect(targetMm, name).toBeGreaterThan(0);
      expect(targetOrigin.length).toBeGreaterThan(10);
    }
  });

  it("applies the file's targets, exclusions and zones", () => {
    const zone = { shape: 'sphere' as const, centre: [-50, 400, 200] as [number, number, number], radius: 4 };
    const { pairs, unchecked } = plan([
      { between: ['rail', 'hoop'], check: true, target: 1 },
      { between: ['hub', 'caliper'], check: false, why: 'shimmed by hand' },
      { between: ['rail', 'lowerArm'], check: true, zone },
    ]);
    expect(pairs.get('rail hoop')).toMatchObject({ targetMm: 1, targetOrigin: 'the corner file' });
    expect(unchecked.get('hub caliper')?.why).toContain('shimmed by hand');
    expect(unchecked.get('hub.housing caliper')?.why).toContain('shimmed by hand');
    expect(pairs.get('lowerArm rail')?.zones).toMatchObject([
      { shape: 'sphere', centre: [-50, 400, 200], radiusMm: 4 },
    ]);
  });

  const problemsOf = (entries: PairEntry[]): string => {
    try {
      plan(entries);
    } catch (error) {
      if (error instanceof DesignProblems) return error.message;
      throw error;
    }
    return '';
  };
  const sphereAt = (centre: [number, number, number], radius = 4) =>
    ({ shape: 'sphere', centre, radius }) as const;
  const slabAlong = (axis: [number, number, number], centre: [number, number, number]) =>
    ({ shape: 'slab', centre, axis, radius: 4, thickness: 10 }) as const;

  it.each([
    [
      'beside a hinge',
      ['rail', 'lowerArm'],
      sphereAt([0, 430, 200]),
      /pairs\[0\]\.zone\.centre: .* 30\.00 mm from the line through lowerArmFront/,
    ],
    ['beside a joint', ['lowerArm', 'upright'], sphereAt([0, 700, 201]), /1\.00 mm from lowerJoint/],
    [
      'of two parts without a common pivot',
      ['rail', 'upright'],
      sphereAt([0, 700, 200]),
      /have no common pivot/,
    ],
    [
      'that is a slab at a joint',
      ['lowerArm', 'upright'],
      slabAlong([0, 0, 1], [0, 700, 200]),
      /use a sphere/,
    ],
    [
      'that is a slab across a hinge',
      ['rail', 'lowerArm'],
      slabAlong([0, 0, 1], [0, 400, 200]),
      /must lie along/,
    ],
    [
      'larger than the smaller part',
      ['lowerArm', 'upright'],
      sphereAt([0, 700, 200], 201),
      /402\.00 mm across is larger/,
    ],
  ] as const)('rejects a zone %s', (_, between, zone, message) => {
    expect(
      problemsOf([{ between: [...between], check: true, zone: { ...zone } as PairEntry['zone'] }]),
    ).toMatch(message);
  });

  it.each([
    ['at the joint', ['lowerArm', 'upright'], sphereAt([0, 700, 200])],
    ['anywhere on a hinge', ['rail', 'lowerArm'], slabAlong([1, 0, 0], [30, 400, 200])],
    [
      'anywhere between parts that never move against each other',
      ['caliper', 'upright'],
      sphereAt([9, 9, 9]),
    ],
  ] as const)('accepts a zone %s', (_, between, zone) => {
    expect(problemsOf([{ between: [...between], check: true, zone: { ...zone } as PairEntry['zone'] }])).toBe(
      '',
    );
  });

  it('rejects an entry for a pair that is never measured, unless the entry excludes it', () => {
    expect(problemsOf([{ between: ['wheel', 'tyre'], check: true, target: 1 }])).toMatch(
      /^pairs\[0\]\.between: these parts are never measured .*the tyre is mounted on the wheel/,
    );
    expect(problemsOf([{ between: ['wheel', 'tyre'], check: false, why: 'one body' }])).toBe('');
    // The hub's housing is measured against the rotor, but its flange is not.
    expect(problemsOf([{ between: ['hub', 'rotor'], check: true, target: 1 }])).toBe('');
  });
});
