import { prepareBody } from '../../src/clearance/body.ts';
import type { Carrier, Suspension } from '../../src/design/schema.ts';
import { doubleWishboneRack } from '../../src/layouts/doubleWishboneRack/layout.ts';
import { fromAxes } from '../../src/math/rigid.ts';
import { add, cross, distance, normalize, perpendicular, scale, sub, type Vec3 } from '../../src/math/vec.ts';
import { prepareMechanism } from '../../src/mechanism/mechanism.ts';
import type { Mesh, Solid, Zone } from '../../src/solids/solid.ts';
import { pendingResult, placeRow } from '../../src/sweep/assemble.ts';
import type { SweepResult } from '../../src/sweep/result.ts';
import { RowSweeper } from '../../src/sweep/row.ts';
import type { Setup } from '../../src/sweep/setUp.ts';
import { stepsThroughZero } from '../../src/sweep/steps.ts';
import { between } from '../oracles/random.ts';
import { box, capsule, moved, rod, sphere } from '../oracles/shapes.ts';

const CARRIERS = Object.keys(doubleWishboneRack.carriers);

/** A shape fixed to a carrier. */
export interface CarriedShape {
  carrier: Carrier;
  mesh: Mesh;
}

interface Steps {
  travelSteps: number;
  steerSteps: number;
  limitMm?: number;
}

/**
 * A corner of simple shapes on a real mechanism. Every two shapes on different carriers are a pair with a target of
 * 40 mm.
 */
export function shapeCorner(
  suspension: Suspension,
  shapes: readonly CarriedShape[],
  { travelSteps, steerSteps, limitMm = 80 }: Steps,
  zones: readonly Zone[] = [],
): Setup {
  const solids = shapes.map(
    ({ carrier, mesh }, k): Solid => ({
      id: `shape${k}`,
      label: `Shape ${k}`,
      kind: 'box',
      partIndex: k,
      carrier,
      mesh,
      shown: undefined,
      chordErrorMm: 0,
      volumeMm3: 0,
      allowanceMm: 0,
      attachments: [],
    }),
  );
  const bodies = shapes.map(({ mesh }) => prepareBody(mesh, { zones, chordErrorMm: 0 }));
  const pairs = shapes.flatMap((_, a) =>
    shapes
      .map((__, b) => b)
      .filter((b) => b > a && shapes[b].carrier !== shapes[a].carrier)
      .map((b) => ({ a, b, moves: true, zones, targetMm: 40, targetOrigin: 'a test', allowanceMm: 0 })),
  );
  const { travel } = suspension;
  return {
    design: {
      corner: undefined,
      source: undefined,
      inputs: [],
      hash: 'shapes',
    } as unknown as Setup['design'],
    settings: { travelSteps, steerSteps, limitMm, chordToleranceMm: 1 },
    mechanism: prepareMechanism(suspension),
    solids,
    pairs,
    unchecked: [],
    bodies: pairs.map(({ a, b }) => ({ a: bodies[a], b: bodies[b] })),
    travelMm: stepsThroughZero(-travel.droop, travel.bump, travelSteps),
    steer: stepsThroughZero(-1, 1, steerSteps),
    tyre: { radiusMm: 300, planeMm: 0 },
  };
}

export function sweepOf(setup: Setup): SweepResult {
  const result = pendingResult(setup);
  const sweeper = new RowSweeper(setup);
  setup.travelMm.forEach((travelMm, t) => {
    placeRow(result, t, sweeper.sweep(travelMm, setup.steer));
  });
  return result;
}

/** A round bar from one point to another. */
export function bar(from: Vec3, to: Vec3, radius: number, segments = 12): Mesh {
  const z = normalize(sub(to, from));
  const x = perpendicular(z);
  return moved(rod(radius, 0, distance(from, to), segments), fromAxes(x, cross(z, x), z, from));
}

const CARRIERS_WITH_SHAPES = CARRIERS.filter((name) => name !== 'wheel' && name !== 'damperRod');

/** A box, ball, capsule or bar with random orientation and position near the middle of the upright. */
function randomShape(random: () => number, { hardpoints: h }: Suspension): CarriedShape {
  const size = () => between(random, 8, 60);
  const shapes = [
    () => box(size(), size(), size()),
    () => sphere(size() / 2, 12),
    () => capsule(size() / 3, between(random, 30, 150), 12),
    () => rod(size() / 4, -between(random, 20, 120), between(random, 20, 120), 10),
  ];
  const mesh = shapes[Math.floor(random() * shapes.length)]();
  const z = normalize([between(random, -1, 1), between(random, -1, 1), between(random, -1, 1)]);
  const x = perpendicular(z);
  const middle = scale(add(h.lowerJoint, h.upperJoint), 0.5);
  const at: Vec3 = [
    middle[0] + between(random, -120, 120),
    middle[1] + between(random, -180, 60),
    middle[2] + between(random, -120, 120),
  ];
  const carrier = CARRIERS_WITH_SHAPES[Math.floor(random() * CARRIERS_WITH_SHAPES.length)];
  return { carrier, mesh: moved(mesh, fromAxes(x, cross(z, x), z, at)) };
}

/** Four random shapes on random carriers. */
export const randomShapes = (random: () => number, suspension: Suspension): CarriedShape[] =>
  Array.from({ length: 4 }, () => randomShape(random, suspension));
