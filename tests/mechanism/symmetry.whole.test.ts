/**
 * The solver has no preferred side: a corner mirrored in Y = 0 and steered the opposite way moves as the mirror
 * image.
 */

import { describe, expect, it } from 'vitest';
import type { Suspension } from '../../src/design/schema.ts';
import { shownPoint, shownRigid } from '../../src/design/side.ts';
import { doubleWishboneRack } from '../../src/layouts/doubleWishboneRack/layout.ts';
import { lockOf } from '../../src/layouts/steering.ts';
import { applyPoint } from '../../src/math/rigid.ts';
import { addScaled, length, type Vec3 } from '../../src/math/vec.ts';
import { prepareMechanism, solvePose } from '../../src/mechanism/mechanism.ts';
import { between, mulberry32 } from '../oracles/random.ts';
import { randomCorner } from '../oracles/randomCorner.ts';

const CARRIERS = Object.keys(doubleWishboneRack.carriers);

type Triple = [number, number, number];
const mirrored = (p: Vec3): Triple => [...shownPoint('right', p)];

function mirror(s: Suspension): Suspension {
  const h = s.hardpoints;
  return {
    ...s,
    hardpoints: {
      lowerArmFront: mirrored(h.lowerArmFront),
      lowerArmRear: mirrored(h.lowerArmRear),
      lowerJoint: mirrored(h.lowerJoint),
      upperArmFront: mirrored(h.upperArmFront),
      upperArmRear: mirrored(h.upperArmRear),
      upperJoint: mirrored(h.upperJoint),
      tieRodInner: mirrored(h.tieRodInner),
      tieRodOuter: mirrored(h.tieRodOuter),
      wheelCentre: mirrored(h.wheelCentre),
    },
    damper: s.damper && {
      chassisMount: mirrored(s.damper.chassisMount),
      armMount: mirrored(s.damper.armMount),
      on: s.damper.on,
    },
    steering: {
      rackOutboard: s.steering.rackInboard,
      rackInboard: s.steering.rackOutboard,
      rackDirection: mirrored(s.steering.rackDirection as Triple),
    },
  };
}

describe('random corners', () => {
  it('move as the mirror image if they are mirrored', () => {
    let compared = 0;
    for (let seed = 900; seed < 940; seed++) {
      const suspension = randomCorner(seed);
      const [left, right] = [prepareMechanism(suspension), prepareMechanism(mirror(suspension))];
      const random = mulberry32(seed);
      for (let k = 0; k < 4; k++) {
        const [travelMm, steer] = [between(random, -150, 150), between(random, -1.5, 1.5)];
        const one = solvePose(left, travelMm, steer);
        const other = solvePose(right, travelMm, -steer);
        const where = `seed ${seed}, travel ${travelMm}, steer ${steer}`;
        expect(other.kind, where).toBe(one.kind);
        if (one.kind !== 'solved' || other.kind !== 'solved') continue;
        compared++;
        for (const carrier of CARRIERS) {
          const expected = shownRigid('right', one.carriers[carrier]);
          for (const [i, entry] of other.carriers[carrier].entries())
            expect(Math.abs(entry - expected[i]), `${carrier}, ${where}`).toBeLessThan(1e-8);
        }
      }
    }
    expect(compared).toBeGreaterThan(120);
  });

  it('do not depend on the sign of the rack direction', () => {
    for (let seed = 940; seed < 950; seed++) {
      const suspension = randomCorner(seed);
      const [x, y, z] = suspension.steering.rackDirection as Triple;
      const turned = {
        ...suspension,
        steering: { ...suspension.steering, rackDirection: [-x, -y, -z] as Triple },
      };
      const [one, other] = [suspension, turned].map((s) => solvePose(prepareMechanism(s), 20, 0.1));
      if (one.kind !== 'solved' || other.kind !== 'solved') return expect.fail(`seed ${seed}`);
      for (const [i, entry] of other.carriers.upright.entries())
        expect(entry, `seed ${seed}`).toBeCloseTo(one.carriers.upright[i], 10);
    }
  });

  it('steer the front edge to the left for a positive steer, with the entered rack travel', () => {
    let steered = 0;
    for (let seed = 950; seed < 980; seed++) {
      const suspension = randomCorner(seed);
      for (const s of [suspension, mirror(suspension)]) {
        const mechanism = prepareMechanism(s);
        for (const steer of [-1, -0.3, 0.3, 1]) {
          const pose = solvePose(mechanism, 0, steer);
          if (pose.kind !== 'solved') continue;
          steered++;
          const front: Vec3 = addScaled(s.hardpoints.wheelCentre, [1, 0, 0], 300);
          const shift = applyPoint(pose.carriers.upright, front)[1] - front[1];
          const centre =
            applyPoint(pose.carriers.upright, s.hardpoints.wheelCentre)[1] - s.hardpoints.wheelCentre[1];
          expect(Math.sign(shift - centre), `seed ${seed}, steer ${steer}`).toBe(Math.sign(steer));
          const { rack } = pose.carriers;
          const named = lockOf(s, steer > 0 ? 'outboard' : 'inboard');
          expect(length([rack[3], rack[7], rack[11]])).toBeCloseTo(Math.abs(steer) * named, 10);
        }
      }
    }
    expect(steered).toBeGreaterThan(200);
  });

  it('move without a jump along travel and along steer', () => {
    let checked = 0;
    for (let seed = 980; seed < 985; seed++) {
      const suspension = randomCorner(seed);
      const mechanism = prepareMechanism(suspension);
      const { hardpoints } = suspension;
      const path = [
        ...Array.from({ length: 401 }, (_, i) => ({ travelMm: (i - 200) / 2, steer: 0.5 })),
        ...Array.from({ length: 401 }, (_, i) => ({ travelMm: 100, steer: 0.5 - i / 400 })),
        ...Array.from({ length: 401 }, (_, i) => ({ travelMm: 100 - i / 2, steer: -0.5 })),
      ];
      const points = path.map(({ travelMm, steer }) => {
        const pose = solvePose(mechanism, travelMm, steer);
        return pose.kind === 'solved'
          ? [hardpoints.upperJoint, hardpoints.tieRodOuter].map((p) => applyPoint(pose.carriers.upright, p))
          : undefined;
      });
      for (let i = 1; i + 1 < points.length; i++) {
        const [before, at, after] = [points[i - 1], points[i], points[i + 1]];
        const turn = i % 400 === 0 || i % 401 === 0 || (i + 1) % 401 === 0;
        if (before === undefined || at === undefined || after === undefined || turn) continue;
        checked++;
        // Second differences of half-millimetre steps. A fold into the other branch would jump by many millimetres.
        for (const [k, p] of at.entries())
          expect(
            length(addScaled(addScaled(before[k], p, -2), after[k], 1)),
            `seed ${seed}, travel ${path[i].travelMm}, steer ${path[i].steer}`,
          ).toBeLessThan(0.5);
      }
    }
    expect(checked).toBeGreaterThan(5000);
  });
});
