import type { Layout } from '../layouts/layout.ts';
import type { Hardpoints } from '../layouts/suspension.ts';
import { applyPoint } from '../math/rigid.ts';
import { distance } from '../math/vec.ts';

import type { Carriers } from './pose.ts';
import type { HeldDistance, Mechanism } from './prepared.ts';

export const heldDistances = (layout: Layout, points: Hardpoints): HeldDistance[] =>
  layout.kept.map(({ a, onA, b, onB }) => ({
    a: points[a],
    onA,
    b: points[b],
    onB,
    mm: distance(points[a], points[b]),
  }));

/**
 * The largest error of a pose, mm, measured on the carriers alone, independent of how they were computed: distances
 * that the members keep, joints that two carriers share, and the travel.
 */
export function residualMm({ held, hardpoints }: Mechanism, carriers: Carriers, travelMm: number): number {
  const [, , height] = applyPoint(carriers.upright, hardpoints.wheelCentre);
  let most = Math.abs(height - hardpoints.wheelCentre[2] - travelMm);
  for (const { a, onA, b, onB, mm } of held) {
    const error = Math.abs(distance(applyPoint(carriers[onA], a), applyPoint(carriers[onB], b)) - mm);
    most = Math.max(most, error);
  }
  return most;
}
