import { describe, expect, it } from 'vitest';
import { measure } from '../../src/clearance/query.ts';
import type { Suspension } from '../../src/design/schema.ts';
import { proveInProcess } from '../../src/executors/inProcess.ts';
import { applyPoint, compose, invert, translation } from '../../src/math/rigid.ts';
import { add, type Vec3 } from '../../src/math/vec.ts';
import { prepareMechanism, solvePose } from '../../src/mechanism/mechanism.ts';
import { PROOF_TOLERANCE_MM, type ProvedPair, Prover, stepsOfPair } from '../../src/proof/prove.ts';
import type { Zone } from '../../src/solids/solid.ts';
import type { Setup } from '../../src/sweep/setUp.ts';
import { PARALLEL, SHORT_UPPER_ARM } from '../mechanism/planarCorners.ts';
import { solved } from '../mechanism/solved.ts';
import { between, mulberry32 } from '../oracles/random.ts';
import { randomCorner } from '../oracles/randomCorner.ts';
import { box, moved, sphere } from '../oracles/shapes.ts';
import { isIn } from '../sweep/finerSweep.ts';
import { holdAgainstFiner } from '../sweep/holdAgainstFiner.ts';
import { bar, type CarriedShape, randomShapes, shapeCorner, sweepOf } from '../sweep/shapeCorner.ts';

/** Corners with several pairs near their targets; tests/bench/proof.ts checks fifty corners. */
const SEEDS = [4, 6, 11, 26, 41, 46];

/**
 * A ball on the chassis and one on the upright that meet at one pose and are apart at all poses that are not close to
 * it.
 */
function needle(suspension: Suspension, travelMm: number, steer: number, radius: number): CarriedShape[] {
  const onUpright: Vec3 = add(suspension.hardpoints.wheelCentre, [160, -40, 90]);
  const pose = solved(prepareMechanism(suspension), travelMm, steer);
  const place = applyPoint(pose.carriers.upright, onUpright);
  const ball = sphere(radius, 8);
  return [
    { carrier: 'chassis', mesh: moved(ball, translation(place)) },
    { carrier: 'upright', mesh: moved(ball, translation(onUpright)) },
  ];
}

const proveFirstPair = (setup: Setup, toleranceMm = PROOF_TOLERANCE_MM): ProvedPair => {
  const result = sweepOf(setup);
  return new Prover(setup, result, toleranceMm).prove(0, stepsOfPair(result, 0));
};

describe('the proof between the steps', () => {
  it('gives a bound that no pose of a sweep 20 times finer violates, for random corners', () => {
    let bounded = 0;
    for (const seed of SEEDS) bounded += holdAgainstFiner(seed, PROOF_TOLERANCE_MM).bounded;
    expect(bounded).toBeGreaterThan(15);
  });

  it('gives a valid bound at a tolerance 20 times smaller', () => {
    expect(holdAgainstFiner(11, 0.005).bounded).toBeGreaterThan(0);
  });

  it('finds contact of 0.7 mm balls at a single travel and steer', () => {
    for (let seed = 20; seed < 26; seed++) {
      const random = mulberry32(seed);
      const suspension = randomCorner(seed);
      const { bump } = suspension.travel;
      // Within the first step of bump and of steer, well away from both ends.
      const [travelMm, steer] = [between(random, 0.1, 0.4) * bump, between(random, 0.1, 0.2)];
      const setup = shapeCorner(suspension, needle(suspension, travelMm, steer, 0.7), {
        travelSteps: 5,
        steerSteps: 9,
      });
      const result = sweepOf(setup);
      const where = `seed ${seed}, meeting at ${travelMm} mm and ${steer}`;
      for (const clearanceMm of result.clearanceMm) {
        if (!Number.isNaN(clearanceMm)) expect(clearanceMm, where).toBeGreaterThan(2);
      }
      const { foundMm, at, complete, lowerMm } = new Prover(setup, result).prove(0, stepsOfPair(result, 0));
      expect(foundMm, where).toBeLessThanOrEqual(0);
      expect(lowerMm, where).toBe(Number.NEGATIVE_INFINITY);
      expect(complete, where).toBe(true);
      // They meet at the reported pose.
      const pose = solved(setup.mechanism, at?.travelMm ?? Number.NaN, at?.steer ?? Number.NaN, where);
      const aFromB = compose(invert(pose.carriers.chassis), pose.carriers.upright);
      const { a, b } = setup.bodies[0];
      expect(measure(a, b, aFromB).kind, where).not.toBe('separated');
    }
  });

  it('bounds the clearance known in closed form: a ball that parallel arms move on a circle past a bar', () => {
    // The ball's centre starts at (700, 330) and moves along a circle of 400 mm about (300, 330). The bar is
    // perpendicular to that plane, 430 mm from the circle's centre at a sixteenth of a turn: 30 mm from the circle,
    // well within the travel.
    const angle = -Math.PI / 16;
    const axis: [number, number] = [300 + 430 * Math.cos(angle), 330 + 430 * Math.sin(angle)];
    const setup = shapeCorner(
      PARALLEL,
      [
        { carrier: 'upright', mesh: moved(sphere(10, 64), translation([0, 700, 330])) },
        { carrier: 'chassis', mesh: bar([-50, ...axis], [50, ...axis], 8, 64) },
      ],
      { travelSteps: 3, steerSteps: 3 },
    );
    const { lowerMm, foundMm, complete } = proveFirstPair(setup, 0.01);
    expect(complete).toBe(true);
    expect(foundMm - lowerMm).toBeLessThanOrEqual(0.01 + 1e-12);
    // The meshes lie inside the round shapes, by at most 1 - cos(pi / 64) of their radii.
    const chordMm = 18 * (1 - Math.cos(Math.PI / 64));
    expect(foundMm).toBeGreaterThanOrEqual(30 - 18 - 1e-9);
    expect(foundMm).toBeLessThanOrEqual(30 - 18 + chordMm + 0.01);
    expect(lowerMm).toBeLessThanOrEqual(30 - 18 + chordMm);
  });

  it('needs few cells along a valley: a bar coaxial with the pivots, with the same clearance at every pose', () => {
    const { lowerArmFront, lowerArmRear, lowerJoint } = PARALLEL.hardpoints;
    const setup = shapeCorner(
      PARALLEL,
      [
        { carrier: 'lowerArm', mesh: bar([0, 340, 200], lowerJoint, 10, 24) },
        { carrier: 'chassis', mesh: bar(lowerArmFront, lowerArmRear, 20, 64) },
      ],
      { travelSteps: 5, steerSteps: 5 },
    );
    const { lowerMm, foundMm, cells, complete } = proveFirstPair(setup);
    expect(complete).toBe(true);
    // From the pivots' line it is 40 mm to the bar's flat end, and hypot(40, 10) to its rim.
    expect(foundMm).toBeGreaterThanOrEqual(20 - 1e-9);
    expect(foundMm).toBeLessThanOrEqual(20 + 20 * (1 - Math.cos(Math.PI / 64)));
    expect(foundMm - lowerMm).toBeLessThanOrEqual(PROOF_TOLERANCE_MM + 1e-12);
    expect(cells).toBeLessThan(500);
  });

  it('excludes poses at which the mechanism locks out: the upper arm is fully extended in droop', () => {
    const droop = 250;
    const suspension = { ...SHORT_UPPER_ARM, travel: { bump: 50, droop } };
    const { hardpoints } = suspension;
    const setup = shapeCorner(
      suspension,
      [
        { carrier: 'upright', mesh: moved(box(30, 30, 30), translation(hardpoints.wheelCentre)) },
        { carrier: 'chassis', mesh: moved(box(30, 30, 30), translation([0, 600, 320])) },
      ],
      { travelSteps: 41, steerSteps: 5 },
    );
    const { lockedOut } = new Prover(setup, sweepOf(setup));
    expect(lockedOut.length).toBeGreaterThan(0);
    for (const steer of [-1, -0.3, 0, 0.7]) {
      const pose = solvePose(setup.mechanism, -droop, steer);
      if (pose.kind !== 'unreachable') throw new Error('full droop was reached');
      expect(lockedOut.some((part) => isIn(part, -droop, steer))).toBe(true);
      // Just beyond the end of the range everything is locked out; half a travel step before it nothing is.
      const end = pose.nearest.travelMm;
      expect(lockedOut.some((part) => isIn(part, end - 1e-3, steer))).toBe(true);
      expect(lockedOut.some((part) => isIn(part, end + (50 + droop) / 80, steer))).toBe(false);
    }
    expect(lockedOut.some(({ reason }) => reason?.match(/upper arm/))).toBe(true);
  });

  it('finds a ball inside a plate between steps, in the hole that a zone leaves', () => {
    // As the wheel rises from 0 to 80 mm, the ball moves up through the plate, which is between 480 and 500 mm high,
    // through the hole of at least 15 mm that the zone leaves in both faces. The remaining surfaces are never less
    // than 3 mm apart.
    const zone: Zone = { shape: 'sphere', centre: [0, 690, 480], radiusMm: 25 };
    const setup = shapeCorner(
      PARALLEL,
      [
        { carrier: 'upright', mesh: moved(sphere(5, 12), translation([0, 690, 440])) },
        { carrier: 'chassis', mesh: moved(box(200, 200, 20), translation([0, 690, 490])) },
      ],
      { travelSteps: 3, steerSteps: 3 },
      [zone],
    );
    const result = sweepOf(setup);
    expect(Math.min(...result.clearanceMm)).toBeGreaterThan(10);
    const { foundMm, at, complete } = new Prover(setup, result).prove(0, stepsOfPair(result, 0));
    expect(complete).toBe(true);
    expect(foundMm).toBeLessThan(0);
    expect(at?.travelMm).toBeGreaterThan(35);
    expect(at?.travelMm).toBeLessThan(65);
  });

  it('is the same in any order and in process', async () => {
    const suspension = randomCorner(4);
    const setup = shapeCorner(suspension, randomShapes(mulberry32(5004), suspension), {
      travelSteps: 3,
      steerSteps: 3,
    });
    const result = sweepOf(setup);
    const done: number[] = [];
    const { pairs } = await proveInProcess(setup, result, { onProgress: (d) => done.push(d) });
    const prover = new Prover(setup, result);
    for (const proved of [...pairs].reverse())
      expect(prover.prove(proved.pair, stepsOfPair(result, proved.pair))).toEqual(proved);
    expect(done).toEqual(pairs.map((_, k) => k + 1));
  });

  it('rejects when cancelled, and for a tolerance of 0 or less', async () => {
    const suspension = randomCorner(4);
    const setup = shapeCorner(suspension, randomShapes(mulberry32(5004), suspension), {
      travelSteps: 3,
      steerSteps: 3,
    });
    const result = sweepOf(setup);
    const controller = new AbortController();
    const proof = proveInProcess(setup, result, {
      signal: controller.signal,
      onProgress: () => controller.abort(new Error('cancelled')),
    });
    await expect(proof).rejects.toThrow('cancelled');
    for (const toleranceMm of [0, -1, Number.NaN])
      expect(() => new Prover(setup, result, toleranceMm)).toThrow(RangeError);
  });
});
