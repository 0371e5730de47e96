import { IN_LINE_COSINE_GAP, RACK_LIMIT_MM, TRAVEL_LIMIT_MM } from '../math/tolerances.ts';
import { type Assembly, assemble } from './assemble.ts';
import { carriersOf } from './carriers.ts';
import { type Followed, followRack, followRackAtTravel, followTravel } from './follow.ts';
import { type Mechanism, rackAt } from './linkage.ts';
import type { PoseResult } from './pose.ts';
import { residualMm } from './residual.ts';

export interface Way extends Followed {
  /** Where it set out for travel: at ride height, or steered there. */
  from: Assembly;
  /** True where the rack reached its place, and travel alone is missing. */
  steered: boolean;
}

/** The assembly at ride height, straight ahead. `prepareMechanism` has proved that it is there. */
function rideHeight(m: Mechanism): Assembly {
  const assembly = assemble(m, 0, 0);
  if (assembly === undefined) throw new Error('a prepared mechanism assembles at ride height');
  return assembly;
}

/** Steers at ride height, then travels. */
function steerThenTravel(m: Mechanism, travelMm: number, rackMm: number): Way {
  const steering = followRack(m, rideHeight(m), rackMm);
  const from = steering.at;
  if (!steering.reached) return { ...steering, from, steered: false };
  const travel = followTravel(m, from, travelMm);
  return { ...travel, evaluations: steering.evaluations + travel.evaluations, from, steered: true };
}

/** Travels straight ahead, then steers, then makes good the little that steering raised or lowered the wheel centre. */
function travelThenSteer(m: Mechanism, travelMm: number, rackMm: number): Way {
  const from = rideHeight(m);
  const travel = followTravel(m, from, travelMm);
  if (!travel.reached) return { ...travel, from, steered: false };
  const steering = followRack(m, travel.at, rackMm);
  const evaluations = travel.evaluations + steering.evaluations;
  if (!steering.reached) return { ...steering, evaluations, from, steered: false };
  const rest = followTravel(m, steering.at, travelMm);
  return { ...rest, evaluations: evaluations + rest.evaluations, from, steered: true };
}

/** Steers with the wheel centre held at ride height, then travels. */
function steerLevelThenTravel(m: Mechanism, travelMm: number, rackMm: number): Way {
  const steering = followRackAtTravel(m, rideHeight(m), rackMm, 0);
  const from = steering.at;
  if (!steering.reached) return { ...steering, from, steered: false };
  const travel = followTravel(m, from, travelMm);
  return { ...travel, evaluations: steering.evaluations + travel.evaluations, from, steered: true };
}

/** Travels straight ahead, then steers with the wheel centre held at that travel. */
function travelThenSteerLevel(m: Mechanism, travelMm: number, rackMm: number): Way {
  const from = rideHeight(m);
  const travel = followTravel(m, from, travelMm);
  if (!travel.reached) return { ...travel, from, steered: false };
  const steering = followRackAtTravel(m, travel.at, rackMm, travelMm);
  const evaluations = travel.evaluations + steering.evaluations;
  return { ...steering, evaluations, from, steered: steering.reached };
}

/** In the order in which they are tried. The first two take less time, the last two are those that a proof follows. */
const WAYS = [steerThenTravel, travelThenSteer, travelThenSteerLevel, steerLevelThenTravel];

/**
 * A way on the branch from ride height. What is reached is what one of `WAYS` reaches: travel and steer one after the
 * other. Of a pose that none reaches the first way is returned, as far as it goes.
 */
export function wayTo(m: Mechanism, travelMm: number, rackMm: number): Way {
  let first: Way | undefined;
  let evaluations = 0;
  for (const go of WAYS) {
    const way = go(m, travelMm, rackMm);
    evaluations += way.evaluations;
    if (way.reached) return { ...way, evaluations };
    first ??= way;
    if (rackMm === 0) break;
  }
  if (first === undefined) throw new Error('there is a first way');
  return { ...first, evaluations };
}

/** Why the branch ends where a way ends. */
function reasonFor({ at: { upperCosine, tieRodCosine }, steered }: Way): string {
  if (1 - Math.abs(upperCosine) < IN_LINE_COSINE_GAP)
    return upperCosine > 0
      ? 'The upper arm cannot reach: it is stretched out in line with the upright.'
      : 'The upper arm cannot follow: it is folded in line with the upright.';
  if (1 - Math.abs(tieRodCosine) < IN_LINE_COSINE_GAP)
    return tieRodCosine > 0
      ? 'The tie rod cannot reach: it is stretched out in line with the steering arm.'
      : 'The tie rod cannot follow: it is folded in line with the steering arm.';
  return steered
    ? 'The arms go over centre: turned any further, they move the wheel centre back the other way.'
    : 'The wheel is steered so far that the arms no longer lift its centre.';
}

/**
 * The last travel that is reached on a way whose travel ran out: its end, or just before it, where rounding at the end
 * itself leaves travel less sure than it must be.
 */
function lastTravel(m: Mechanism, { at, from }: Way, rackMm: number): number {
  const end = at.riseMm;
  const back = from.riseMm - end;
  for (let backOff = 0; backOff < Math.abs(back); backOff = 4 * backOff + TRAVEL_LIMIT_MM) {
    const travelMm = end + Math.sign(back) * backOff;
    if (wayTo(m, travelMm, rackMm).reached) return travelMm;
  }
  return from.riseMm;
}

function nearestTo(
  m: Mechanism,
  travelMm: number,
  steer: number,
  way: Way,
): { travelMm: number; steer: number } {
  if (way.steered) return { travelMm: lastTravel(m, way, rackAt(m, steer)), steer };
  const straight = wayTo(m, travelMm, 0);
  const travel = straight.reached ? travelMm : lastTravel(m, straight, 0);
  return { travelMm: travel, steer: mostSteer(m, travel, steer) };
}

/** The most steer that is reached at a travel, of one that is not. */
function mostSteer(m: Mechanism, travelMm: number, steer: number): number {
  const rackMm = rackAt(m, steer);
  const isReached = (share: number): boolean => wayTo(m, travelMm, rackMm * share).reached;
  let [within, beyond] = [0, 1];
  // As a rule steer ends where it ends with the travel held; where it does not, the search goes on from there.
  const end = travelThenSteerLevel(m, travelMm, rackMm).at.rackMm / rackMm;
  const hair = (0.4 * RACK_LIMIT_MM) / Math.abs(rackMm);
  for (const share of [end - hair, end + hair]) {
    if (!(share > within && share < beyond)) continue;
    if (isReached(share)) within = share;
    else beyond = share;
  }
  while (Math.abs(rackMm) * (beyond - within) > RACK_LIMIT_MM) {
    const middle = (within + beyond) / 2;
    if (isReached(middle)) within = middle;
    else beyond = middle;
  }
  return within * steer;
}

/**
 * The pose at a travel (rise of the wheel centre from ride height, mm) and a steer (-1 to +1 of lock, positive = front
 * edge toward the vehicle's left). Closed form in the lower arm's angle; the angle is found by a bracketed search that
 * keeps to the assembly branch of ride height. What the mechanism does not reach on that branch is `unreachable`; no
 * pose is moved to one that it does reach. Steer beyond +-1 is extrapolated. Throws a RangeError for values that are not
 * finite.
 */
export function solvePose(mechanism: Mechanism, travelMm: number, steer: number): PoseResult {
  if (!Number.isFinite(travelMm) || !Number.isFinite(steer))
    throw new RangeError(`a pose needs a finite travel and steer, not ${travelMm} mm and ${steer}`);
  const way = wayTo(mechanism, travelMm, rackAt(mechanism, steer));
  if (!way.reached)
    return {
      kind: 'unreachable',
      travelMm,
      steer,
      reason: reasonFor(way),
      nearest: nearestTo(mechanism, travelMm, steer, way),
    };
  const carriers = carriersOf(mechanism, way.at);
  return {
    kind: 'solved',
    travelMm,
    steer,
    carriers,
    residualMm: residualMm(mechanism, carriers, travelMm),
    iterations: way.evaluations,
  };
}
