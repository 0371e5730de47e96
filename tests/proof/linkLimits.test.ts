/** Limits of drive shaft and brake hose: closed forms of parallel arms, then random corners at many poses. */
import { describe, expect, it } from 'vitest';
import { parseDesign } from '../../src/design/parse.ts';
import { limitFindings } from '../../src/findings/limitFindings.ts';
import { applyDirection, applyPoint } from '../../src/math/rigid.ts';
import { distance, dot, normalize, sub } from '../../src/math/vec.ts';
import { solvePose } from '../../src/mechanism/mechanism.ts';
import { measureLimits } from '../../src/proof/limits.ts';
import { hoseToBuyMm } from '../../src/sweep/allowedLimits.ts';
import { LIMIT_TOLERANCE } from '../../src/sweep/limit.ts';
import { mechanismOf } from '../../src/sweep/setUp.ts';
import { stepsThroughZero } from '../../src/sweep/steps.ts';
import { readDesign } from '../design/readDesign.ts';
import { cases } from '../oracles/random.ts';
import { randomCorner } from '../oracles/randomCorner.ts';
import { ARM_MM, BUMP_MM, box, boxCorner, PIVOT } from '../studies/vary/boxCorner.ts';

const PARTS = [box('one', 'upright', [0, 640, 350], [40, 40, 30])];
const limitsOf = (corner: ReturnType<typeof readDesign>['corner'], steps = 5) => {
  const { bump, droop } = corner.suspension.travel;
  return measureLimits(
    corner,
    mechanismOf(corner),
    stepsThroughZero(-droop, bump, steps),
    stepsThroughZero(-1, 1, 3),
  ).limits;
};

/** The inner joint is 50 mm inboard of the arms' pivots, the outer one level with it at the end of the arm. */
const SHAFT = { inner: [0, PIVOT.y - 50, PIVOT.z], outer: [0, PIVOT.y + ARM_MM, PIVOT.z] };
/** At a rise of the wheel, the outer joint is this far out and up from the inner one. */
const shaftAt = (rise: number) => [50 + Math.sqrt(ARM_MM ** 2 - rise ** 2), rise] as const;

describe('a drive shaft on parallel arms', () => {
  const [out, up] = shaftAt(BUMP_MM);
  const angleDeg = (Math.atan2(up, out) * 180) / Math.PI;

  it('has the same angle at both joints, and shrinks by its closed form', () => {
    const { corner } = readDesign(boxCorner(PARTS, { driveShaft: SHAFT }));
    const limits = limitsOf(corner);
    expect(limits.map(({ kind, unit }) => [kind, unit])).toEqual([
      ['shaftInner', 'deg'],
      ['shaftOuter', 'deg'],
      ['shaftIn', 'mm'],
      ['shaftOut', 'mm'],
    ]);
    const shrinks = 50 + ARM_MM - Math.hypot(out, up);
    [angleDeg, angleDeg, shrinks, 0].forEach((used, k) => {
      expect(limits[k].worst?.used).toBeCloseTo(used, 7);
      expect(limits[k].proven).toBeGreaterThanOrEqual(used - 1e-9);
      expect(limits[k].proven).toBeLessThan(used + 2 * LIMIT_TOLERANCE);
    });
    expect(limitFindings(limits).map(({ state }) => state)).toEqual(Array(4).fill('unknown'));
  });

  it('is held to the smaller of the angle of the joint and the angle in use', () => {
    const stateWith = (given: object) => {
      const { corner } = readDesign(boxCorner(PARTS, { driveShaft: { ...SHAFT, ...given } }));
      const [inner] = limitsOf(corner);
      return [limitFindings([inner])[0].state, inner.allowedFrom.field];
    };
    expect(stateWith({ innerAllowedDeg: angleDeg + 0.1 })).toEqual(['clear', 'innerAllowedDeg']);
    expect(stateWith({ innerAllowedDeg: angleDeg - 0.1 })).toEqual(['binds', 'innerAllowedDeg']);
    expect(stateWith({ innerAllowedDeg: 47, innerUseDeg: angleDeg - 0.1 })).toEqual(['binds', 'innerUseDeg']);
    expect(stateWith({ innerAllowedDeg: angleDeg + 0.1, innerUseDeg: 47 })).toEqual([
      'clear',
      'innerAllowedDeg',
    ]);
  });
});

describe('a brake hose', () => {
  const HOSE = { chassisEnd: [0, PIVOT.y, 500], uprightEnd: [0, PIVOT.y + ARM_MM, 420], slack: 25 };
  /** The end moves on a circle of the arm's length about a point 80 mm below the fixed end. */
  const straightAt = (rise: number) => Math.hypot(Math.sqrt(ARM_MM ** 2 - rise ** 2), rise - 80);

  it('needs its straight distance at full droop and its slack', () => {
    const longest = straightAt(-50);
    const limitWith = (length?: number) =>
      limitsOf(readDesign(boxCorner(PARTS, { brakeHose: { ...HOSE, length } })).corner)[0];
    const unknown = limitWith();
    expect(unknown.worst?.used).toBeCloseTo(longest, 7);
    expect(hoseToBuyMm({ ...HOSE, chassisEnd: [0, 0, 0], uprightEnd: [0, 0, 1] }, unknown)).toBeCloseTo(
      longest + 25,
      1,
    );
    expect(limitFindings([unknown, limitWith(longest + 24.9), limitWith(longest + 25.1)])).toMatchObject([
      { state: 'binds', allowed: longest - 0.1 },
      { state: 'unknown', allowed: undefined },
      { state: 'clear' },
    ]);
  });

  it('and a drive shaft must have a length', () => {
    const read = parseDesign(
      JSON.stringify(
        boxCorner(PARTS, {
          driveShaft: { inner: [0, 300, 300], outer: [0, 300, 300.5] },
          brakeHose: { ...HOSE, length: 20 },
        }),
      ),
    );
    expect(read.kind === 'bad' && read.problems.map(({ path, message }) => [path, message])).toEqual([
      ['driveShaft.outer', 'must be at least 1 mm from inner; type the centre of the outer joint'],
      [
        'brakeHose.slack',
        'must be less than the length, 20 mm; type the length that the hose keeps to spare',
      ],
    ]);
  });
});

describe('drive shaft and hose of random corners', () => {
  it.each(Array.from({ length: cases(3, 40) }, (_, k) => 900 + k))(
    'stay within the proof, seed %i',
    (seed) => {
      const random = randomCorner(seed);
      // Where the suspension locks out, nothing is proved.
      const steering = { ...random.steering, rackOutboard: 20, rackInboard: 20 };
      const suspension = { ...random, travel: { bump: 60, droop: 60 }, steering };
      const { wheelCentre: wheel } = suspension.hardpoints;
      const inner = [wheel[0] + 20, 150, wheel[2] + 15];
      const outer = [wheel[0], wheel[1] - 90, wheel[2]];
      const lifted = [wheel[0] - 60, wheel[1] - 60, wheel[2] + 120];
      const corner = {
        ...readDesign(
          boxCorner(PARTS, {
            driveShaft: { inner, outer },
            brakeHose: { chassisEnd: [0, 250, 300], uprightEnd: lifted, slack: 0 },
          }),
        ).corner,
        suspension,
      };
      const mechanism = mechanismOf(corner);
      const limits = limitsOf(corner);
      const { bump, droop } = suspension.travel;
      let reached = 0;
      for (let i = 0; i <= 24; i++)
        for (let j = 0; j <= 24; j++) {
          const pose = solvePose(mechanism, -droop + ((bump + droop) * i) / 24, -1 + j / 12);
          if (pose.kind !== 'solved') continue;
          reached++;
          const { upright } = pose.carriers;
          const [from, to] = [corner.driveShaft?.inner, corner.driveShaft?.outer];
          if (from === undefined || to === undefined) return expect.fail();
          const line = sub(applyPoint(upright, to), from);
          const angle = (along: Parameters<typeof dot>[1]) =>
            (Math.acos(Math.min(1, Math.abs(dot(normalize(line), along)))) * 180) / Math.PI;
          const change = Math.hypot(...line) - distance(from, to);
          const hose = distance(applyPoint(upright, lifted as never), [0, 250, 300]);
          const used = [
            angle([0, 1, 0]),
            angle(applyDirection(upright, mechanism.spinAxis)),
            -change,
            change,
            hose,
          ];
          used.forEach((value, k) => {
            const { proven, kind, worst } = limits[k];
            if (proven === undefined) return;
            expect(value, `seed ${seed} ${kind}`).toBeLessThanOrEqual(proven + 1e-6);
            expect(proven - (worst?.used ?? 0), `seed ${seed} ${kind}`).toBeLessThanOrEqual(LIMIT_TOLERANCE);
          });
        }
      expect(reached).toBeGreaterThan(0);
    },
  );
});
