import { describe, expect, it } from 'vitest';
import { limitFindings } from '../../src/findings/limitFindings.ts';
import { LIMIT_TOLERANCE } from '../../src/sweep/limit.ts';
import { cornerOf, PARALLEL } from '../mechanism/planarCorners.ts';
import { bareCorner, damperOf, jointAt, limitsAt } from '../sweep/limitCorner.ts';

const DEGREES = 180 / Math.PI;

/** A rack travel of almost zero: arms that only slide the upright have a closed form straight ahead only. */
const SLIDING = {
  ...PARALLEL,
  steering: { rackOutboard: 1e-9, rackInboard: 1e-9, rackDirection: [0, 1, 0] },
} satisfies typeof PARALLEL;

describe('tilt of a joint', () => {
  // Arms of 400 mm that only slide the upright: at travel z they have turned by asin(z / 400).
  const maxDeg = Math.asin(80 / 400) * DEGREES;

  it("is the arm's rotation for a bolt perpendicular to the pivot line, and 0 for a bolt along it", () => {
    const corner = bareCorner(SLIDING, [
      jointAt('lowerJoint', {}),
      jointAt('upperJoint', { boltDirection: [0, 0.6, 0.8] }),
      jointAt('lowerArmFront', { boltDirection: [1, 0, 0] }),
    ]);
    const [lower, upper, pivot] = limitsAt(corner, { travelSteps: 5, steerSteps: 3 });
    for (const { worst, proven, complete } of [lower, upper]) {
      expect(worst?.used).toBeCloseTo(maxDeg, 9);
      expect(Math.abs(worst?.travelMm ?? 0)).toBe(80);
      expect(proven).toBeGreaterThanOrEqual(maxDeg);
      expect(proven).toBeLessThanOrEqual(maxDeg + LIMIT_TOLERANCE);
      expect(complete).toBe(true);
    }
    expect(pivot.worst?.used).toBeLessThan(1e-6);
    expect(pivot.proven).toBeLessThan(LIMIT_TOLERANCE);
    // Bump of 40 mm, straight ahead.
    expect(lower.usedAtSteps[3 * 3 + 1]).toBeCloseTo(Math.asin(40 / 400) * DEGREES, 9);
  });

  it('is smallest with the housing midway between bump and droop', () => {
    const suspension = { ...SLIDING, travel: { bump: 120, droop: 40 } };
    const corner = bareCorner(suspension, [jointAt('lowerJoint', {})]);
    const [{ betterHousing }] = limitsAt(corner, { travelSteps: 9, steerSteps: 3 });
    const [bumpDeg, droopDeg] = [120, 40].map((mm) => Math.asin(mm / 400) * DEGREES);
    const bestDeg = (bumpDeg + droopDeg) / 2;
    // The direction is rounded to 0.0001, which turns it by less than 0.005 degrees.
    expect(betterHousing?.mostTiltDeg).toBeGreaterThan(bestDeg - 1e-9);
    expect(betterHousing?.mostTiltDeg).toBeLessThan(bestDeg + LIMIT_TOLERANCE + 0.005);
    const turned = limitsAt(
      bareCorner(suspension, [jointAt('lowerJoint', { housingDirection: betterHousing?.direction })]),
    );
    expect(turned[0].worst?.used).toBeLessThanOrEqual(betterHousing?.mostTiltDeg ?? 0);
  });

  it('gives a rod end a direction perpendicular to its shank', () => {
    // The shank of the tie rod's outer end is along Y, so the direction has no Y component.
    const corner = bareCorner(PARALLEL, [jointAt('tieRodOuter', { form: 'rodEnd' })]);
    const [{ betterHousing, proven }] = limitsAt(corner, { travelSteps: 5, steerSteps: 5 });
    expect(betterHousing?.direction[1]).toBeCloseTo(0, 12);
    expect(betterHousing?.mostTiltDeg).toBeLessThanOrEqual((proven ?? 0) + LIMIT_TOLERANCE);
  });
});

describe('allowed tilt', () => {
  const allowed = (given: object) => {
    const [{ allowed: degrees, allowedFrom }] = limitsAt(
      bareCorner(PARALLEL, [jointAt('lowerJoint', given)]),
      { travelSteps: 3, steerSteps: 3 },
    );
    return { degrees, from: allowedFrom.dimensions.map(({ name, mm }) => `${name} ${mm}`), ...allowedFrom };
  };
  const asin = (sine: number) => Math.asin(sine) * DEGREES;

  it('is the typed value, if there is one', () => {
    expect(allowed({ allowedTiltDeg: 12, ballWidth: 19 })).toMatchObject({ degrees: 12, how: 'typed' });
  });

  it('is the smaller of the tilts at the bolt or spacer and at the ball face', () => {
    const atBolt = 90 - asin(14 / 30) - asin(18 / 30);
    expect(allowed({}).degrees).toBeCloseTo(atBolt, 9);
    expect(allowed({})).toMatchObject({ how: 'computed', from: ['ball 30', 'housing width 18', 'bolt 14'] });
    // A spacer that is not thicker than the bolt has no effect.
    expect(allowed({ spacers: { diameter: 14, length: 6 } }).from).toContain('bolt 14');
    const spacer = allowed({ spacers: { diameter: 16, length: 6 } });
    expect(spacer.degrees).toBeCloseTo(90 - asin(16 / 30) - asin(18 / 30), 9);
    expect(spacer.from).toContain('spacer 16');
    const face = allowed({ ballWidth: 22 });
    expect(face.degrees).toBeCloseTo(asin(22 / 30) - asin(18 / 30), 9);
    expect(face.from).toEqual(['ball 30', 'housing width 18', 'ball width 22']);
    expect(allowed({ ballWidth: 29 }).from).toContain('bolt 14');
  });
});

describe('length of a damper', () => {
  // From (0, 400, 600) to a mount on the lower arm, 200 mm out from its pivot line at (300, 200).
  const suspension = {
    ...SLIDING,
    damper: { chassisMount: [0, 400, 600], armMount: [0, 500, 200], on: 'lowerArm' },
  } satisfies typeof PARALLEL;
  const lengthAt = (travelMm: number) => {
    const turn = Math.asin(travelMm / 400);
    return Math.hypot(300 + 200 * Math.cos(turn) - 400, 200 + 200 * Math.sin(turn) - 600);
  };
  const [shortest, longest] = [lengthAt(80), lengthAt(-80)];
  const limits = (given: object) => {
    const found = limitsAt(bareCorner(suspension, [], damperOf(given)), { travelSteps: 5, steerSteps: 3 });
    return { found, findings: limitFindings(found) };
  };

  it('is measured at both ends of the travel, with a proven bound', () => {
    const [closed, open] = limits({}).found;
    expect([closed.kind, open.kind]).toEqual(['damperClosed', 'damperOpen']);
    expect(closed.worst?.used).toBeCloseTo(shortest, 9);
    expect(closed.worst?.travelMm).toBe(80);
    expect(closed.proven).toBeLessThanOrEqual(shortest);
    expect(closed.proven).toBeGreaterThanOrEqual(shortest - LIMIT_TOLERANCE);
    expect(open.worst?.used).toBeCloseTo(longest, 9);
    expect(open.proven).toBeGreaterThanOrEqual(longest);
    expect(open.proven).toBeLessThanOrEqual(longest + LIMIT_TOLERANCE);
  });

  it('is compared with the closed and open length', () => {
    const given = { closedLength: shortest - 1, openLength: longest + 2 };
    const clear = limits(given).findings;
    expect(clear.map(({ state }) => state)).toEqual(['clear', 'clear']);
    expect(clear.map(({ left }) => left)).toEqual([expect.closeTo(1, 6), expect.closeTo(2, 6)]);
    const bottoms = limits({ ...given, closedLength: shortest + 3 }).findings;
    expect(bottoms[0]).toMatchObject({ kind: 'damperClosed', state: 'binds', left: expect.closeTo(-3, 6) });
    const tops = limits({ ...given, openLength: longest - 4 }).findings;
    expect(tops[0]).toMatchObject({ kind: 'damperOpen', state: 'binds', left: expect.closeTo(-4, 6) });
  });

  it('has body and half the eye as its smallest allowed length if none is typed, and no largest one', () => {
    const [open, closed] = limits({ bodyLength: shortest - 20 }).findings;
    expect(closed).toMatchObject({ kind: 'damperClosed', state: 'clear', left: expect.closeTo(5, 6) });
    expect(closed.allowedFrom).toMatchObject({ how: 'computed', field: 'closedLength' });
    expect(open).toMatchObject({ kind: 'damperOpen', state: 'unknown', left: undefined });
    expect(open.allowedFrom).toEqual({ how: 'missing', field: 'openLength', dimensions: [] });
    // With room between the mounts for the body, but not for the body and the eye.
    expect(limits({ bodyLength: shortest - 10 }).findings[0]).toMatchObject({
      kind: 'damperClosed',
      state: 'binds',
      left: expect.closeTo(-5, 6),
    });
  });
});

/** Early versions of the demo corners, with joints that bind unnoticed. Inch values in mm. */
const BINDING = [
  {
    name: 'a river racer',
    suspension: cornerOf(
      {
        lowerArmFront: [190.5, 298.45, 285.75],
        lowerArmRear: [-171.45, 298.45, 285.75],
        lowerJoint: [6.35, 723.9, 269.875],
        upperArmFront: [107.95, 387.35, 495.3],
        upperArmRear: [-95.25, 387.35, 495.3],
        upperJoint: [-19.05, 695.325, 530.225],
        tieRodInner: [-161.925, 381, 425.45],
        tieRodOuter: [-139.7, 730.25, 446.0875],
        wheelCentre: [0, 800.1, 390.525],
      },
      {
        camberDeg: -0.75,
        toeDeg: 0.15,
        travel: { bump: 139.7, droop: 152.4 },
        steering: { rackOutboard: 68, rackInboard: 68, rackDirection: [0, 1, 0] },
      },
    ),
    joints: [
      jointAt('upperJoint', { ballDiameter: 31.75, housingWidth: 19.05, boltDiameter: 14.2875 }),
      jointAt('tieRodOuter', {
        form: 'rodEnd',
        ballDiameter: 26.9875,
        housingWidth: 17.4625,
        boltDiameter: 14.2875,
      }),
    ],
    expected: [
      [29.59, 26.39],
      [21.76, 17.71],
    ],
  },
  {
    name: 'a hill-climb special',
    suspension: cornerOf(
      {
        lowerArmFront: [150, 300, 160],
        lowerArmRear: [-180, 300, 160],
        lowerJoint: [4, 648, 166],
        upperArmFront: [95, 345, 376],
        upperArmRear: [-130, 345, 376],
        upperJoint: [-18, 632, 404],
        tieRodInner: [104, 312, 228],
        tieRodOuter: [92, 652, 240],
        wheelCentre: [0, 700, 284],
      },
      {
        camberDeg: -1.5,
        toeDeg: -0.1,
        travel: { bump: 55, droop: 60 },
        steering: { rackOutboard: 40, rackInboard: 40, rackDirection: [0, 1, 0] },
      },
    ),
    joints: [
      jointAt('tieRodOuter', { form: 'rodEnd', ballDiameter: 19, housingWidth: 14, boltDiameter: 10 }),
    ],
    expected: [[12.9, 10.8]],
  },
  {
    name: 'a trials special',
    suspension: cornerOf(
      {
        lowerArmFront: [172, 335, 172],
        lowerArmRear: [-205, 335, 172],
        lowerJoint: [6, 688, 176],
        upperArmFront: [108, 392, 412],
        upperArmRear: [-152, 392, 412],
        upperJoint: [-20, 670, 446],
        tieRodInner: [121, 344, 246],
        tieRodOuter: [112, 692, 256],
        wheelCentre: [0, 745, 310],
      },
      {
        camberDeg: -0.8,
        toeDeg: 0.1,
        travel: { bump: 72, droop: 85 },
        steering: { rackOutboard: 46, rackInboard: 46, rackDirection: [0, 1, 0] },
      },
    ),
    joints: [
      jointAt('tieRodOuter', { form: 'rodEnd', ballDiameter: 22, housingWidth: 16, boltDiameter: 12 }),
    ],
    expected: [[14.4, 10.3]],
  },
];

describe('joints that bind over full travel and lock', () => {
  it.each(BINDING)('are found in $name', ({ suspension, joints, expected }) => {
    const limits = limitsAt(bareCorner(suspension, joints));
    for (const [k, { worst, allowed }] of limits.entries()) {
      expect(Math.abs((worst?.used ?? 0) - expected[k][0])).toBeLessThan(0.05);
      expect(Math.abs((allowed ?? 0) - expected[k][1])).toBeLessThan(0.05);
    }
    expect(limitFindings(limits).map(({ state }) => state)).toEqual(expected.map(() => 'binds'));
  });
});
