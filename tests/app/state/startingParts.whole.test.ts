import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { additions, newProblem } from '../../../src/app/state/partEdits.ts';
import { nextItem, startingGroup } from '../../../src/app/state/startingParts.ts';
import { withoutPart, withValue } from '../../../src/design/edit.ts';
import { valueAt } from '../../../src/design/path.ts';
import type { Corner, PartKind } from '../../../src/design/schema.ts';
import { limitFindings } from '../../../src/findings/limitFindings.ts';
import { partKinds } from '../../../src/parts/kindOf.ts';
import { limitsOf } from '../../../src/proof/limits.ts';
import { mechanismOf } from '../../../src/sweep/setUp.ts';
import { entryOf, minimalCorner } from '../../design/fixtures.ts';
import { readDesign } from '../../design/readDesign.ts';

const read = (source: unknown): Corner => readDesign(source).corner;
/** Kinds that must be removed together with a kind, so that the other parts stay valid. */
const WITH: Partial<Record<PartKind, readonly PartKind[]>> = {
  wheel: ['tyre'],
  hub: ['upright'],
  rotor: ['caliper'],
};
const without = (kinds: readonly PartKind[], whole: unknown = minimalCorner()): unknown => {
  let source = whole;
  const parts = () => valueAt(source, ['parts']) as { kind: PartKind }[];
  for (;;) {
    const at = parts().findIndex(({ kind }) => kinds.includes(kind));
    if (at < 0) return source;
    source = withoutPart(source, at);
  }
};

describe('an added part', () => {
  it.each(partKinds())('%s is valid with its starting dimensions', (kind) => {
    const source = without([kind, ...(WITH[kind] ?? [])]);
    const addition = additions(source, read(source)).find((one) => one.kind === kind);
    expect(addition?.why).toBeUndefined();
    const corner = read(addition?.changed);
    expect(corner.parts[corner.parts.length - 1].kind).toBe(kind);
  });

  // Five studs on 127 mm in a hat of 177.8 mm, and four on 100 mm in one of 150 mm.
  it.each(['gravelbeck', 'larkrise'])('fits hub, wheel and rotor of %s', (name) => {
    const file = new URL(`../../../demo-data/${name}.corner.json`, import.meta.url);
    const demo: unknown = JSON.parse(readFileSync(file, 'utf8'));
    for (const kind of ['wheel', 'hub', 'spacer', 'rotor'] as const) {
      const gone: PartKind[] = kind === 'hub' ? ['upright', 'spacer'] : [...(WITH[kind] ?? [])];
      const source = without([kind, ...gone], demo);
      expect(additions(source, read(source)).find((one) => one.kind === kind)?.why, kind).toBeUndefined();
    }
  });

  it('is refused with the reason if the corner already has one', () => {
    const source = minimalCorner();
    const refused = additions(source, read(source)).filter(({ why }) => why !== undefined);
    expect(refused.map(({ kind }) => kind)).toEqual([
      'wheel',
      'tyre',
      'hub',
      'upright',
      'controlArm',
      'tieRod',
      'damper',
    ]);
    expect(refused[0].why).toBe('a corner already has one');
  });

  it('is a joint at the place without a joint', () => {
    const source = minimalCorner();
    const joint = additions(source, read(source)).find(({ kind }) => kind === 'joint');
    const { parts } = read(joint?.changed);
    const added = parts[parts.length - 1];
    expect(added.kind === 'joint' && added.at).toBe('tieRodInner');
  });
});

describe('an added joint, damper or upright', () => {
  const added = (source: unknown, kind: PartKind): Corner => {
    const changed = additions(source, read(source)).find((one) => one.kind === kind)?.changed;
    return read(changed);
  };
  const limitsOfLast = (corner: Corner) => {
    const poses = [Float64Array.of(-60, 0, 60), Float64Array.of(-1, 0, 1)] as const;
    const limits = limitFindings(limitsOf(corner, mechanismOf(corner), ...poses));
    return limits.filter(({ partIndex }) => partIndex === corner.parts.length - 1);
  };
  const withoutJoint = (at: string) => {
    const source = minimalCorner();
    source.parts = source.parts.filter((part) => part.kind !== 'joint' || part.at !== at);
    source.parts.push({
      ...entryOf(source, 'joint'),
      id: 'inner',
      at: 'tieRodInner',
      form: 'cup',
    });
    return source;
  };

  it.each(['lowerJoint', 'upperJoint', 'tieRodOuter'])(
    'tilts far enough at %s, and its bolt ends flush',
    (at) => {
      const corner = added(withoutJoint(at), 'joint');
      const joint = corner.parts[corner.parts.length - 1];
      const [upright] = corner.parts.filter((part) => part.kind === 'upright');
      if (joint.kind !== 'joint') throw new Error('no joint was added');
      expect(joint.at).toBe(at);
      expect(joint.boltLength / 2).toBeCloseTo(upright.jointGap + upright.jointMounts.height, 9);
      expect(limitsOfLast(corner).map(({ state }) => state)).toEqual(['clear']);
    },
  );

  it('tilts further if the suspension travels further', () => {
    const source = withoutJoint('upperJoint');
    const ballAt = (bump: number) => {
      const corner = added(
        { ...source, suspension: { ...source.suspension, travel: { bump, droop: 60 } } },
        'joint',
      );
      const joint = corner.parts[corner.parts.length - 1];
      return joint.kind === 'joint' ? joint.ballDiameter : 0;
    };
    expect(ballAt(140)).toBeGreaterThan(ballAt(40));
  });

  it('has bosses that contain the whole bolts of the existing joints', () => {
    const { parts } = added(without(['upright']), 'upright');
    const [upright] = parts.filter((part) => part.kind === 'upright');
    const longest = Math.max(...parts.flatMap((part) => (part.kind === 'joint' ? [part.boltLength] : [])));
    expect(upright.jointGap + upright.jointMounts.height).toBeCloseTo(longest / 2, 9);
  });

  it('is a damper that neither bottoms out nor tops out', () => {
    const corner = added(without(['damper']), 'damper');
    expect(limitsOfLast(corner).map(({ kind, state }) => `${kind} ${state}`)).toEqual([
      'damperClosed clear',
      'damperOpen clear',
    ]);
  });
});

describe('removing a part', () => {
  it('reports the part that needs it', () => {
    const source = minimalCorner();
    const at = (id: string) => source.parts.findIndex((part) => part.id === id);
    expect(newProblem(source, withoutPart(source, at('rotor')))).toBe(
      'caliper: needs a part of kind "rotor": it is placed from the friction faces',
    );
    expect(newProblem(source, withoutPart(source, at('tieRod')))).toBeUndefined();
  });
});

describe('an added group', () => {
  it.each([
    ['caliper', 'bracket'],
    ['caliper', 'bleedScrew'],
    ['lowerArm', 'brace'],
    ['upperArm', 'gusset'],
    ['damper', 'spring'],
    ['lowerUniball', 'boltHead'],
    ['lowerUniball', 'spacers'],
    ['tieRodEnd', 'housingDirection'],
    ['wheel', 'innerBarrel'],
    ['hub', 'mountRectangle'],
    ['rotor', 'hatBolts'],
  ])('%s: %s is valid with its starting values', (id, key) => {
    const corner = minimalCorner();
    const part = corner.parts.findIndex((one) => one.id === id);
    const path = ['parts', part, key];
    const bare = withValue(corner, path, undefined);
    read(withValue(bare, path, startingGroup(key, read(bare), part)));
  });

  it('puts a damper between arm and chassis', () => {
    const bare = withValue(without(['damper']), ['suspension', 'damper'], undefined);
    const { suspension } = read(
      withValue(bare, ['suspension', 'damper'], startingGroup('damper', read(bare), undefined)),
    );
    expect(suspension.damper?.chassisMount[2]).toBeGreaterThan(suspension.hardpoints.upperJoint[2]);
  });
});

it('places a new corner of an outline midway between the last and the first', () => {
  expect(
    nextItem([
      [0, 0, 0],
      [10, 0, 0],
      [10, 20, 0],
    ]),
  ).toEqual([5, 10, 0]);
});
