import { type Body, prepareBody } from '../../src/clearance/body.ts';
import { compose, invert, type Rigid } from '../../src/math/rigid.ts';
import type { Mesh } from '../../src/solids/solid.ts';
import { randomRigid } from './bruteForce.ts';
import { between, mulberry32 } from './random.ts';
import { moved, ring, rod } from './shapes.ts';

/** Half the length of each bar, mm. */
export const HALF_MM = 600;

/** Number of sides that keeps a round shape within a chord tolerance. */
export const sidesFor = (radius: number, chordMm: number): number =>
  Math.ceil(Math.PI / Math.acos(1 - chordMm / radius));

export interface TwoBars {
  radii: readonly number[];
  /** Greatest distance of the meshes inside the round bars, mm. */
  chordMm: number;
  /** Each mesh is oblique to the axes of its own frame. */
  bodies: readonly [Body, Body];
  aFromB: Rigid;
  /** From the second bar's frame to the first bar's, both with the bar along z. */
  firstFromSecond: Rigid;
}

/** Two long round bars in random orientations, with middles up to about 70 mm apart. Hollow bars have thin walls. */
export function randomBars(seed: number, hollow = false): TwoBars {
  const random = mulberry32(seed);
  const radii = [between(random, 8, 45), between(random, 8, 45)];
  const chordMm = [0.02, 0.05, 0.2][seed % 3];
  const own = radii.map(() => randomRigid(random, 100));
  const aFromB = compose(compose(own[0], randomRigid(random, 40)), invert(own[1]));
  const meshOf = (radius: number): Mesh => {
    const sides = sidesFor(radius, chordMm);
    if (!hollow) return rod(radius, -HALF_MM, HALF_MM, sides);
    const inner = between(random, 0.5, 0.9) * radius;
    return ring(
      [
        [inner, -HALF_MM],
        [radius, -HALF_MM],
        [radius, HALF_MM],
        [inner, HALF_MM],
      ],
      sides,
    );
  };
  const bodyOf = (k: number) => prepareBody(moved(meshOf(radii[k]), own[k]), { chordErrorMm: 0 });
  return {
    radii,
    chordMm,
    bodies: [bodyOf(0), bodyOf(1)],
    aFromB,
    firstFromSecond: compose(invert(own[0]), compose(aFromB, own[1])),
  };
}
