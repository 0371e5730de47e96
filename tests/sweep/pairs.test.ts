import { describe, expect, it } from 'vitest';
import type { Carrier, Corner, PairEntry } from '../../src/design/schema.ts';
import type { Attachment, Solid, SolidKind } from '../../src/solids/solid.ts';
import { planPairs } from '../../src/sweep/pairs.ts';

function solid(
  id: string,
  kind: SolidKind,
  carrier: Carrier,
  partIndex: number,
  attachments: Attachment[] = [],
): Solid {
  return {
    id,
    label: id,
    kind,
    carrier,
    partIndex,
    attachments,
    mesh: { positions: new Float64Array(), triangles: new Uint32Array() },
    shown: undefined,
    chordErrorMm: 0,
    volumeMm3: 0,
    allowanceMm: partIndex === 0 ? 0.5 : 0.25,
  };
}

const ball = (name: string, radiusMm: number): Attachment => ({
  name,
  zone: { shape: 'sphere', centre: [0, 700, 200], radiusMm },
});

const SOLIDS = [
  solid('wheel', 'wheel', 'wheel', 0),
  solid('tyre', 'tyre', 'wheel', 1),
  solid('hub', 'hub', 'wheel', 2),
  solid('hub.housing', 'bearingHousing', 'upright', 2),
  solid('rotor', 'rotor', 'wheel', 3),
  solid('caliper', 'caliper', 'upright', 4),
  solid('lowerArm', 'controlArm', 'lowerArm', 5, [ball('lowerJoint', 30)]),
  solid('uniball', 'joint', 'lowerArm', 6, [ball('lowerJoint', 25)]),
  solid('upright', 'upright', 'upright', 7, [ball('lowerJoint', 40)]),
  solid('rail', 'tube', 'chassis', 8),
  solid('hoop', 'tube', 'chassis', 9),
];

const IDS = ['wheel', 'tyre', 'hub', 'rotor', 'caliper', 'lowerArm', 'uniball', 'upright', 'rail', 'hoop'];

function plan(said: PairEntry[] = []) {
  const corner = { parts: IDS.map((id) => ({ id })), pairs: said } as unknown as Corner;
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

  it('leaves out only what is joined for good, and says why', () => {
    expect([...plan().unchecked].map(([name, { why }]) => `${name}: ${why}`)).toEqual([
      'wheel tyre: the tyre is mounted on the wheel',
      'wheel hub: clamped together on the studs',
      'hub hub.housing: two bodies of one part',
      'hub rotor: clamped together on the studs; the stud holes of a rotor are not measured',
      'lowerArm uniball: both are fixed to the lower arm',
      'rail hoop: both are fixed to the chassis',
    ]);
  });

  it('names the checks of dimensions that cover a pair which is not measured, and none where there are none', () => {
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
    // The file switched it off: no check stands in for that.
    expect(unchecked.get('wheel tyre')).toMatchObject({ why: 'the file says so: as drawn by hand' });
    expect(covered('wheel tyre')).toBeUndefined();
    expect(plan().unchecked.get('wheel tyre')?.coveredBy).toEqual(['rim diameter of tyre']);
  });

  it('measures two rotors against each other', () => {
    const solids = [solid('rotor', 'rotor', 'wheel', 0), solid('rotor2', 'rotor', 'wheel', 1)];
    const corner = { parts: [{ id: 'rotor' }, { id: 'rotor2' }], pairs: [] } as unknown as Corner;
    expect(planPairs(corner, solids)).toMatchObject({ pairs: [{ a: 0, b: 1 }], unchecked: [] });
  });

  it('knows fit pairs from sweep pairs: the wheel turns on the upright and goes with it', () => {
    const { pairs } = plan();
    expect(pairs.get('wheel caliper')?.moves).toBe(false);
    expect(pairs.get('wheel rotor')?.moves).toBe(false);
    expect(pairs.get('wheel lowerArm')?.moves).toBe(true);
    expect(pairs.get('lowerArm rail')?.moves).toBe(true);
  });

  it('takes the larger zone where both are joined at one place, and none elsewhere', () => {
    const { pairs } = plan();
    expect(pairs.get('lowerArm upright')?.zones).toEqual([ball('lowerJoint', 40).zone]);
    expect(pairs.get('uniball upright')?.zones).toEqual([ball('lowerJoint', 40).zone]);
    expect(pairs.get('wheel upright')?.zones).toEqual([]);
  });

  it('gives targets with their origin and sums allowances', () => {
    const { pairs } = plan();
    expect(pairs.get('wheel caliper')).toMatchObject({ targetMm: 3.175, allowanceMm: 0.75 });
    expect(pairs.get('tyre rail')).toMatchObject({ targetMm: 25, allowanceMm: 0.5 });
    expect(pairs.get('wheel lowerArm')?.targetMm).toBe(6.35);
    for (const { targetMm, targetOrigin } of pairs.values()) {
      expect(targetMm).toBeGreaterThan(0);
      expect(targetOrigin.length).toBeGreaterThan(10);
    }
  });

  it('does what the file says of a pair', () => {
    const zone = { shape: 'sphere' as const, centre: [1, 2, 3] as [number, number, number], radius: 4 };
    const { pairs, unchecked } = plan([
      { between: ['rail', 'hoop'], check: true, target: 1 },
      { between: ['hub', 'caliper'], check: false, why: 'shimmed by hand' },
      { between: ['rail', 'lowerArm'], check: true, zone },
    ]);
    expect(pairs.get('rail hoop')).toMatchObject({ targetMm: 1, targetOrigin: 'the corner file' });
    expect(unchecked.get('hub caliper')?.why).toContain('shimmed by hand');
    expect(unchecked.get('hub.housing caliper')?.why).toContain('shimmed by hand');
    expect(pairs.get('lowerArm rail')?.zones).toEqual([{ shape: 'sphere', centre: [1, 2, 3], radiusMm: 4 }]);
  });
});
