import type { Suspension } from '../../src/design/schema.ts';
import { HMMWV, OFF_ROAD_BUGGY, SEDAN } from '../references/mechanismHardpoints.ts';
import { between, mulberry32 } from './random.ts';

type Triple = [number, number, number];
const REAL = [HMMWV, SEDAN, OFF_ROAD_BUGGY];

/**
 * A real corner with every hardpoint moved by up to 30 mm along each axis and the rack up to about 10 degrees off Y.
 */
export function randomCorner(seed: number): Suspension {
  const random = mulberry32(seed);
  const real = REAL[Math.floor(random() * REAL.length)];
  const moved = (p: readonly number[]): Triple =>
    p.map((c) => c + between(random, -30, 30)) as unknown as Triple;
  const h = real.hardpoints;
  return {
    ...real,
    hardpoints: {
      lowerArmFront: moved(h.lowerArmFront),
      lowerArmRear: moved(h.lowerArmRear),
      lowerJoint: moved(h.lowerJoint),
      upperArmFront: moved(h.upperArmFront),
      upperArmRear: moved(h.upperArmRear),
      upperJoint: moved(h.upperJoint),
      tieRodInner: moved(h.tieRodInner),
      tieRodOuter: moved(h.tieRodOuter),
      wheelCentre: moved(h.wheelCentre),
    },
    damper: real.damper && {
      chassisMount: moved(real.damper.chassisMount),
      armMount: moved(real.damper.armMount),
      on: (['lowerArm', 'upperArm', 'upright'] as const)[Math.floor(random() * 3)],
    },
    camberDeg: between(random, -4, 2),
    toeDeg: between(random, -1, 1),
    steering: {
      rackOutboard: between(random, 20, 60),
      rackInboard: between(random, 20, 60),
      rackDirection: [
        between(random, -0.2, 0.2),
        random() < 0.5 ? -between(random, 0.5, 2) : between(random, 0.5, 2),
        between(random, -0.2, 0.2),
      ],
    },
  };
}
