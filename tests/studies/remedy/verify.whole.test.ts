import { describe, expect, it } from 'vitest';
import type { Corner } from '../../../src/design/schema.ts';
import { Verifier } from '../../../src/studies/remedy/verify.ts';
import type { Trials } from '../../../src/studies/vary/trials.ts';
import { boltsOf } from '../../solids/benchCorner.ts';
import { addCube, atTheWheel } from '../assembly/atTheWheel.ts';

/** Trials that give one changed corner, in which all pairs and limits are as before. */
const trialsOf = (corner: Corner, given: { locksOut?: boolean; baseLocksOut?: boolean } = {}) =>
  ({
    attempt: async () => ({ corner, problems: [], keys: new Map(), limits: [], locksOut: false, ...given }),
    worseLimits: () => [],
    compared: async () => [],
    baseLocksOut: given.baseLocksOut ?? false,
  }) as unknown as Trials;

/** The bench corner with hub bolts, and a cube behind the first of them: at 60 mm its socket does not reach the head. */
function behindBolt(mm: number): Corner {
  const corner = atTheWheel();
  corner.parts.push(boltsOf({ joins: 'hubMount' }));
  addCube(corner, 'cube', [0, -75 - 12 - mm, 55], 20);
  return corner;
}

const verify = (before: Corner, after: Corner, given = {}) =>
  new Verifier(trialsOf(after, given), before, []).verify({}, 'a b');

describe('a change', () => {
  it('after which a bolt can no longer be reached is refused', async () => {
    const reasons = await verify(behindBolt(400), behindBolt(60));
    expect(reasons).toMatchObject([
      { kind: 'bolts', ways: [{ body: { label: 'hubMount 1, socket on its head' } }] },
    ]);
  });

  it('is not refused for a bolt that could not be reached before', async () => {
    // No pair is affected here, so the pair in hand is missing.
    await expect(verify(behindBolt(60), behindBolt(60))).rejects.toThrow('does not affect the pair a b');
  });

  it('after which the suspension locks out is refused, unless it did before', async () => {
    const corner = atTheWheel();
    expect(await verify(corner, corner, { locksOut: true })).toEqual([{ kind: 'locksOut' }]);
    await expect(verify(corner, corner, { locksOut: true, baseLocksOut: true })).rejects.toThrow('pair a b');
  });
});
