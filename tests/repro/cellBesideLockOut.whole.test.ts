import { describe, expect, it } from 'vitest';
import { measure } from '../../src/clearance/query.ts';
import type { Suspension } from '../../src/design/schema.ts';
import { compose, invert, translation } from '../../src/math/rigid.ts';
import type { Vec3 } from '../../src/math/vec.ts';
import { solvePose } from '../../src/mechanism/solvePose.ts';
import { Prover, stepsOfPair } from '../../src/proof/prove.ts';
import { readDesign } from '../design/readDesign.ts';
import { between, cases, mulberry32 } from '../oracles/random.ts';
import { moved, sphere } from '../oracles/shapes.ts';
import { cornerSource } from '../report/cornerSource.ts';
import { shapeCorner, sweepOf } from '../sweep/shapeCorner.ts';

/**
 * A rack so long that the tie rod folds in line with the steering arm. The limit of reachable poses is then slanted.
 * Some cells beside it are enclosed, but the middle of one of their halves is not reached. A proof that halved such a
 * cell failed with "no motion is known where the carriers are not enclosed".
 */
describe('a cell beside a lock-out', () => {
  const source = cornerSource();
  const steering = { rackOutboard: 180, rackInboard: 150 };
  const suspension: Suspension = readDesign(cornerSource({ suspension: { ...source.suspension, steering } }))
    .corner.suspension;
  const ball = (centre: Vec3, radius: number) => moved(sphere(radius, 8), translation(centre));

  const balls: { onRod: Vec3; onUpright: Vec3 }[] = [
    { onRod: [117.5, 555.9, 252.5], onUpright: [-34.5, 667.6, 236.1] },
    { onRod: [112.1, 371.6, 257.9], onUpright: [-104.9, 616.4, 224.8] },
  ];
  it.each(balls.slice(0, cases(1, 2)))(
    'does not stop a proof: $onRod and $onUpright',
    ({ onRod, onUpright }) => {
      const setup = shapeCorner(
        suspension,
        [
          { carrier: 'tieRod', mesh: ball(onRod, 8) },
          { carrier: 'upright', mesh: ball(onUpright, 10) },
        ],
        { travelSteps: 11, steerSteps: 21 },
      );
      const result = sweepOf(setup);
      const prover = new Prover(setup, result);
      const { lowerMm, foundMm } = prover.prove(0, stepsOfPair(result, 0));
      expect(prover.lockedOut.length).toBeGreaterThan(0);
      expect(lowerMm).toBeLessThan(foundMm);
      const random = mulberry32(1);
      let measured = 0;
      for (let n = 0; n < 800; n++) {
        const [travelMm, steer] = [between(random, -50, 60), between(random, -1, 1)];
        const pose = solvePose(setup.mechanism, travelMm, steer);
        const left = prover.lockedOut.some(
          (part) =>
            part.travelMm[0] <= travelMm &&
            travelMm <= part.travelMm[1] &&
            part.steer[0] <= steer &&
            steer <= part.steer[1],
        );
        if (pose.kind !== 'solved' || left) continue;
        const { a, b } = setup.bodies[0];
        const found = measure(a, b, compose(invert(pose.carriers.tieRod), pose.carriers.upright));
        if (found.kind !== 'separated') throw new Error(`travel ${travelMm}, steer ${steer}: ${found.kind}`);
        expect(found.distanceMm, `travel ${travelMm}, steer ${steer}`).toBeGreaterThan(lowerMm);
        measured += 1;
      }
      expect(measured).toBeGreaterThan(300);
    },
  );
});
