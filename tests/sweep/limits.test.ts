import { describe, expect, it } from 'vitest';
import { limitFindings } from '../../src/findings/limitFindings.ts';
import { LIMIT_TOLERANCE } from '../../src/sweep/limit.ts';
import { cornerOf, PARALLEL } from '../mechanism/planarCorners.ts';
import { bareCorner, damperOf, jointAt, limitsAt } from './limitCorner.ts';

const DEGREES = 180 / Math.PI;

/** Steered by next to nothing: arms that only slide the upright have a closed form straight ahead alone. */
const SLIDING = {
  ...PARALLEL,
  steering: { rackOutboard: 1e-9, rackInboard: 1e-9, rackDirection: [0, 1, 0] },
} satisfies typeof PARALLEL;

describe('tilt of a joint', () => {
  // Arms of 400 mm that only slide the upright: at travel z they have turned by asin(z / 400).
  const mostDeg = Math.asin(80 / 400) * DEGREES;

  it('is the turn of the arm where the bolt stands square to the pivot line, and none along it', () => {
    const corner = bareCorner(SLIDING, [
      jointAt('lowerJoint', {}),
      jointAt('upperJoint', { boltDirection: [0, 0.6, 0.8] }),
      jointAt('lowerArmFront', { boltDirection: [1, 0, 0] }),
    ]);
    const [lower, upper, pivot] = limitsAt(corner, { travelSteps: 5, steerSteps: 3 });
    for (const { worst, proven, complete } of [lower, upper]) {
      expect(worst?.used).toBeCloseTo(mostDeg, 9);
      expect(Math.abs(worst?.travelMm ?? 0)).toBe(80);
      expect(proven).toBeGreaterThanOrEqual(mostDeg);
      expect(proven).toBeLessThanOrEqual(mostDeg + LIMIT_TOLERANCE);
      expect(complete).toBe(true);
    }
    expect(pivot.worst?.used).toBeLessThan(1e-6);
    expect(pivot.proven).toBeLessThan(LIMIT_TOLERANCE);
    // Bump of 40 mm, straight ahead.
    expect(lower.usedAtSteps[3 * 3 + 1]).toBeCloseTo(Math.asin(40 / 400) * DEGREES, 9);
  });

  it('is best shared out by a housing that stands midway between bump and droop', () => {
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

  it('takes a direction of a rod end square to its shank', () => {
    // The shank of the tie rod's outer end lies along Y, and nothing of a turn about X is square to it.
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

  it('is what is typed, whatever the dimensions give', () => {
    expect(allowed({ allowedTiltDeg: 12, ballWidth: 19 })).toMatchObject({ degrees: 12, how: 'typed' });
  });

  it('is the lesser of what bolt or spacer and ball face leave', () => {
    const atBolt = 90 - asin(14 / 30) - asin(18 / 30);
    expect(allowed({}).degrees).toBeCloseTo(atBolt, 9);
    expect(allowed({})).toMatchObject({ how: 'computed', from: ['ball 30', 'housing width 18', 'bolt 14'] });
    // A spacer no thicker than the bolt changes nothing.
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
  // From (0, 500, 600) to a mount on the lower arm 200 mm out from its pivot line at (300, 200).
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

  it('is told at both ends of the travel, with a proven bound', () => {
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

  it('is held against its own closed and open length', () => {
    const given = { closedLength: shortest - 1, openLength: longest + 2 };
    const clear = limits(given).findings;
    expect(clear.map(({ state }) => state)).toEqual(['clear', 'clear']);
    expect(clear.map(({ left }) => left)).toEqual([expect.closeTo(1, 6), expect.closeTo(2, 6)]);
    const bottoms = limits({ ...given, closedLength: shortest + 3 }).findings;
    expect(bottoms[0]).toMatchObject({ kind: 'damperClosed', state: 'binds', left: expect.closeTo(-3, 6) });
    const tops = limits({ ...given, openLength: longest - 4 }).findings;
    expect(tops[0]).toMatchObject({ kind: 'damperOpen', state: 'binds', left: expect.closeTo(-4, 6) });
  });

  it('is no less than body and half an eye where no closed length is given; an open length is then not known', () => {
    const [open, closed] = limits({ bodyLength: shortest - 20 }).findings;
    expect(closed).toMatchObject({ kind: 'damperClosed', state: 'clear', left: expect.closeTo(5, 6) });
    expect(closed.allowedFrom).toMatchObject({ how: 'computed', field: 'closedLength' });
    expect(open).toMatchObject({ kind: 'damperOpen', state: 'unknown', left: undefined });
    expect(open.allowedFrom).toEqual({ how: 'missing', field: 'openLength', dimensions: [] });
    // With a body that leaves its own length between the mounts, but not the eye's as well.
    expect(limits({ bodyLength: shortest - 10 }).findings[0]).toMatchObject({
      kind: 'damperClosed',
      state: 'binds',
      left: expect.closeTo(-5, 6),
    });
  });
});

/** Corners as they were first drawn, with joints that bind and nobody noticed. Inches given as mm. */
const BINDING = [
  {
    name: 'a desert two-seater',
    suspension: cornerOf(
      {
        lowerArmFront: [158.75, 330.2, 311.15],
        lowerArmRear: [-200.025, 330.2, 311.15],
        lowerJoint: [9.525, 765.175, 298.45],
        upperArmFront: [88.9, 419.1, 539.75],
        upperArmRear: [-114.3, 419.1, 539.75],
        upperJoint: [-25.4, 746.125, 574.675],
        tieRodInner: [-177.8, 406.4, 457.2],
        tieRodOuter: [-142.875, 771.525, 479.425],
        wheelCentre: [0, 838.2, 425.45],
      },
      {
        camberDeg: -0.5,
        toeDeg: 0.1,
        travel: { bump: 152.4, droop: 152.4 },
        steering: { rackOutboard: 66.675, rackInboard: 66.675, rackDirection: [0, 1, 0] },
      },
    ),
    joints: [
      jointAt('upperJoint', { ballDiameter: 34.925, housingWidth: 22.225, boltDiameter: 15.875 }),
      jointAt('tieRodOuter', {
        form: 'rodEnd',
        ballDiameter: 28.575,
        housingWidth: 19.05,
        boltDiameter: 15.875,
      }),
    ],
    expected: [
      [28.9, 23.4],
      [22.6, 14.4],
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
