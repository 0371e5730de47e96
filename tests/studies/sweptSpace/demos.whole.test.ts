import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { isClosed } from '../../../src/clearance/weld.ts';
import type { Corner } from '../../../src/design/schema.ts';
import { applyPoint, type Rigid } from '../../../src/math/rigid.ts';
import type { Vec3 } from '../../../src/math/vec.ts';
import { type Mechanism, solvePose } from '../../../src/mechanism/mechanism.ts';
import { buildSolids } from '../../../src/solids/catalogue.ts';
import type { Mesh } from '../../../src/solids/solid.ts';
import { vehicleFromWheelAxis } from '../../../src/solids/wheelFrame.ts';
import {
  type SpaceRequest,
  sweptSpace,
  WITHIN_MM,
  wholeRange,
} from '../../../src/studies/sweptSpace/sweptSpace.ts';
import { mechanismOf } from '../../../src/sweep/setUp.ts';
import { readDesign } from '../../design/readDesign.ts';
import { cases, mulberry32 } from '../../oracles/random.ts';
import { ProfileDistance } from './profileDistance.ts';
import { goesRound } from './solidChecks.ts';

const IS_DEEP = cases(0, 1) === 1;
/** Samples of each demo. */
const CASES = cases(40, 2000);
/** Poses along travel and steer from which the nearest one is searched. */
const GRID = cases(9, 25);
const SEED = 20261201;

const FOLDER = 'demo-data';
/** The corner in millimetres is that in inches. */
const DEMOS = readdirSync(FOLDER).filter(
  (name) => name.endsWith('.corner.json') && (IS_DEEP || !name.endsWith('-mm.corner.json')),
);

/** The whole range and the default bound in the deep test, else a random part of the range and a coarse bound. */
function requestOf(corner: Corner, next: () => number): SpaceRequest {
  const whole = wholeRange(corner);
  const common = { growthMm: 0, marginMm: 0, planes: [] };
  if (IS_DEEP) return { ...whole, ...common, withinMm: WITHIN_MM };
  const [low, high] = whole.travelMm;
  const travelMm = low + (high - low - 20) * next();
  const steer = -1 + 1.8 * next();
  return { travelMm: [travelMm, travelMm + 20], steer: [steer, steer + 0.2], ...common, withinMm: 40 };
}

const carrierAt = (mechanism: Mechanism, travelMm: number, steer: number): Rigid => {
  const pose = solvePose(mechanism, travelMm, steer);
  if (pose.kind !== 'solved') throw new Error(`travel ${travelMm}, steer ${steer}: ${pose.reason}`);
  return pose.carriers.wheel;
};

/** The vertex that is furthest along a direction. */
function furthest({ positions }: Mesh, [x, y, z]: Vec3): Vec3 {
  let best = 0;
  const along = (i: number): number => x * positions[i] + y * positions[i + 1] + z * positions[i + 2];
  for (let i = 3; i < positions.length; i += 3) if (along(i) > along(best)) best = i;
  return [positions[best], positions[best + 1], positions[best + 2]];
}

const mix = ([from, to]: readonly [number, number], share: number): number => from + (to - from) * share;

describe.each(DEMOS)('the space of %s', (name) => {
  it('contains tyre and wheel between the steps, and is nowhere further outside than the bound', async () => {
    const { corner } = readDesign(readFileSync(`${FOLDER}/${name}`, 'utf8'));
    const next = mulberry32(SEED);
    const request = requestOf(corner, next);
    const about = `seed ${SEED}, travel ${request.travelMm}, steer ${request.steer}`;
    const { solid } = await sweptSpace(corner, request);
    expect(isClosed(solid.mesh)).toBe(true);
    const parts = (await buildSolids(corner, 2)).filter(({ kind }) => kind === 'tyre' || kind === 'wheel');
    expect(parts.length).toBeGreaterThan(0);
    const mechanism = mechanismOf(corner);

    for (let k = 0; k < CASES; k++) {
      // Every other pose is at an end of the range, where the surface of the space is.
      const share = () => (next() < 0.5 ? next() : Math.round(next()));
      const carrier = carrierAt(mechanism, mix(request.travelMm, share()), mix(request.steer, share()));
      const { mesh } = parts[k % parts.length];
      const direction: Vec3 = [next() - 0.5, next() - 0.5, next() - 0.5];
      const point = applyPoint(carrier, furthest(mesh, direction));
      expect(goesRound(solid.mesh, point), `${about}, vertex ${k}`).toBe(1);
    }

    const profile = new ProfileDistance(
      parts.map(({ mesh }) => mesh),
      vehicleFromWheelAxis(corner.suspension),
    );
    const poses = Array.from({ length: GRID ** 2 }, (_, k) => {
      const shares = [(k % GRID) / (GRID - 1), Math.floor(k / GRID) / (GRID - 1)] as const;
      return {
        shares,
        carrier: carrierAt(mechanism, mix(request.travelMm, shares[0]), mix(request.steer, shares[1])),
      };
    });
    const { positions } = solid.mesh;
    for (let k = 0; k < CASES; k++) {
      const at = 3 * Math.floor((next() * positions.length) / 3);
      const point: Vec3 = [positions[at], positions[at + 1], positions[at + 2]];
      const distances = poses.map(({ shares, carrier }) => ({ shares, mm: profile.from(point, carrier) }));
      let best = distances.reduce((one, other) => (other.mm < one.mm ? other : one));
      for (let step = 1 / (GRID - 1); step > 1e-3 && best.mm > request.withinMm; ) {
        const around = [-1, 0, 1].flatMap((i) =>
          [-1, 0, 1].map((j) => {
            const shares = [best.shares[0] + i * step, best.shares[1] + j * step].map((value) =>
              Math.min(Math.max(value, 0), 1),
            ) as unknown as readonly [number, number];
            const carrier = carrierAt(
              mechanism,
              mix(request.travelMm, shares[0]),
              mix(request.steer, shares[1]),
            );
            return { shares, mm: profile.from(point, carrier) };
          }),
        );
        const nearest = around.reduce((one, other) => (other.mm < one.mm ? other : one));
        if (nearest.mm < best.mm) best = nearest;
        else step /= 2;
      }
      expect(best.mm, `${about}, vertex ${k} of the solid`).toBeLessThanOrEqual(request.withinMm);
    }
  }, 600_000);
});
