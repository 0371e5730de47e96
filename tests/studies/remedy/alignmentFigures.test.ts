import { expect, it } from 'vitest';
import { alignmentChange, alignmentFigures } from '../../../src/studies/remedy/alignmentFigures.ts';
import { readDesign } from '../../design/readDesign.ts';
import { boxCorner, parallelArms } from '../vary/boxCorner.ts';

const figuresOf = (changes: object) =>
  alignmentFigures(
    readDesign(
      boxCorner([{ id: 'box', kind: 'box', centre: [0, 0, 0], size: [9, 9, 9] }], {
        suspension: { ...parallelArms, ...changes },
      }),
    ).corner,
  );

it('gives the figures of parallel arms by hand', () => {
  expect(figuresOf({ camberDeg: -1, toeDeg: 0.5 })).toMatchObject({
    camberDeg: expect.closeTo(-1, 9),
    toeDeg: expect.closeTo(0.5, 9),
    casterDeg: expect.closeTo(0, 9),
    toeChangeDeg: expect.closeTo(0, 9),
    outboardLockDeg: expect.closeTo(0, 9),
    travelMm: 110,
  });
  // The wheel centre is at 720, the joints at 660, the kingpin is upright: 60 of scrub radius.
  expect(figuresOf({})).toMatchObject({
    scrubRadiusMm: expect.closeTo(60, 9),
    halfTrackMm: expect.closeTo(720, 9),
    mechanicalTrailMm: expect.closeTo(0, 9),
  });
});

it('gives the toe over travel if the tie rod is not parallel, and the lock of a rack', () => {
  const hardpoints = { ...parallelArms.hardpoints, tieRodInner: [120, 300, 320] };
  const { toeChangeDeg, outboardLockDeg, inboardLockDeg } = figuresOf({
    hardpoints,
    steering: { rackOutboard: 30, rackInboard: 20 },
  });
  expect(toeChangeDeg).toBeGreaterThan(0.5);
  // A steering arm of 120 mm: asin(30 / 120) and asin(20 / 120), less what the arcs of the rod take.
  expect(outboardLockDeg).toBeCloseTo(14.5, 0);
  expect(inboardLockDeg).toBeCloseTo(-9.6, 0);
});

it('adds up the changes; an angle that is known only once counts as infinite', () => {
  const [one, other] = [figuresOf({}), figuresOf({ camberDeg: -1, travel: { bump: 50, droop: 50 } })];
  const change = alignmentChange(one, other);
  expect(change.degrees).toBeCloseTo(1, 9);
  // Travel 10, and the foot of the wheel moves by 330 sin 1° = 5.76: scrub radius and half track.
  expect(change.mm).toBeCloseTo(10 + 2 * 330 * Math.sin(Math.PI / 180), 1);
  expect(alignmentChange(one, { ...one, toeChangeDeg: undefined }).degrees).toBe(Number.POSITIVE_INFINITY);
  expect(
    alignmentChange({ ...one, inboardLockDeg: undefined }, { ...one, inboardLockDeg: undefined }),
  ).toEqual({
    degrees: 0,
    mm: 0,
  });
});
