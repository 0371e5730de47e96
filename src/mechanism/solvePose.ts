import { layoutOf } from '../layouts/layoutOf.ts';
import { IN_LINE_COSINE_GAP, INPUT_LIMIT, TRAVEL_LIMIT_MM } from '../math/tolerances.ts';
import { type Assembly, assemble, inputAt } from './assemble.ts';
import { carriersOf } from './carriers.ts';
import { type FollowResult, followSteering, followSteeringAtTravel, followTravel } from './follow.ts';
import type { PoseResult } from './pose.ts';
import type { Mechanism } from './prepared.ts';
import { residualMm } from './residual.ts';

export interface Route extends FollowResult {
  /** Where the travel stage started: at ride height, or after steering. */
  from: Assembly;
  /** True if the steering reached its position and only the travel is missing. */
  steered: boolean;
}

/** The assembly at ride height, straight ahead. `prepareMechanism` has checked that it exists. */
function rideHeight(m: Mechanism): Assembly {
  const assembly = assemble(m, 0, 0);
  if (assembly === undefined) throw new Error('the prepared mechanism does not assemble at ride height');
  return assembly;
}

/** Steers at ride height, then travels. */
function steerThenTravel(m: Mechanism, travelMm: number, input: number): Route {
  const steering = followSteering(m, rideHeight(m), input);
  const from = steering.at;
  if (!steering.reached) return { ...steering, from, steered: false };
  const travel = followTravel(m, from, travelMm);
  return { ...travel, evaluations: steering.evaluations + travel.evaluations, from, steered: true };
}

/** Travels straight ahead, then steers, then corrects the small rise or fall of the wheel centre from steering. */
function travelThenSteer(m: Mechanism, travelMm: number, input: number): Route {
  const from = rideHeight(m);
  const travel = followTravel(m, from, travelMm);
  if (!travel.reached) return { ...travel, from, steered: false };
  const steering = followSteering(m, travel.at, input);
  const evaluations = travel.evaluations + steering.evaluations;
  if (!steering.reached) return { ...steering, evaluations, from, steered: false };
  const rest = followTravel(m, steering.at, travelMm);
  return { ...rest, evaluations: evaluations + rest.evaluations, from, steered: true };
}

/** Steers with the wheel centre kept at ride height, then travels. */
function steerLevelThenTravel(m: Mechanism, travelMm: number, input: number): Route {
  const steering = followSteeringAtTravel(m, rideHeight(m), input, 0);
  const from = steering.at;
  if (!steering.reached) return { ...steering, from, steered: false };
  const travel = followTravel(m, from, travelMm);
  return { ...travel, evaluations: steering.evaluations + travel.evaluations, from, steered: true };
}

/** Travels straight ahead, then steers with the wheel centre kept at that travel. */
function travelThenSteerLevel(m: Mechanism, travelMm: number, input: number): Route {
  const from = rideHeight(m);
  const travel = followTravel(m, from, travelMm);
  if (!travel.reached) return { ...travel, from, steered: false };
  const steering = followSteeringAtTravel(m, travel.at, input, travelMm);
  const evaluations = travel.evaluations + steering.evaluations;
  return { ...steering, evaluations, from, steered: steering.reached };
}

/** In the order of the attempts. The first two take less time; a proof follows the last two. */
const ROUTES = [steerThenTravel, travelThenSteer, travelThenSteerLevel, steerLevelThenTravel];

/**
 * A route along the branch from ride height. A pose is reached if one of `ROUTES` reaches it: travel and steer one
 * after the other. If none does, returns the first route up to its end.
 */
export function routeTo(m: Mechanism, travelMm: number, input: number): Route {
  let first: Route | undefined;
  let evaluations = 0;
  for (const follow of ROUTES) {
    const route = follow(m, travelMm, input);
    evaluations += route.evaluations;
    if (route.reached) return { ...route, evaluations };
    first ??= route;
    if (input === 0) break;
  }
  if (first === undefined) throw new Error('no route was tried');
  return { ...first, evaluations };
}

/** Why the branch ends at the end of a route. */
function reasonFor(m: Mechanism, { at, steered }: Route): string {
  const { ends } = layoutOf(m);
  const inLine = at.closures.findIndex(({ cosine }) => 1 - Math.abs(cosine) < IN_LINE_COSINE_GAP);
  if (inLine >= 0) {
    const { stretched, folded } = ends.closures[inLine];
    return at.closures[inLine].cosine > 0 ? stretched : folded;
  }
  return steered ? ends.overCentre : ends.steeredTooFar;
}

/**
 * The last reachable travel of a route whose travel ran out: its end, or just before it if rounding at the end leaves
 * the travel too inaccurate.
 */
function lastReachedTravel(m: Mechanism, { at, from }: Route, input: number): number {
  const end = at.riseMm;
  const back = from.riseMm - end;
  for (let backOff = 0; backOff < Math.abs(back); backOff = 4 * backOff + TRAVEL_LIMIT_MM) {
    const travelMm = end + Math.sign(back) * backOff;
    if (routeTo(m, travelMm, input).reached) return travelMm;
  }
  return from.riseMm;
}

function nearestTo(
  m: Mechanism,
  travelMm: number,
  steer: number,
  route: Route,
): { travelMm: number; steer: number } {
  if (route.steered) return { travelMm: lastReachedTravel(m, route, inputAt(m, steer)), steer };
  const straight = routeTo(m, travelMm, 0);
  const travel = straight.reached ? travelMm : lastReachedTravel(m, straight, 0);
  return { travelMm: travel, steer: greatestSteer(m, travel, steer) };
}

/** The greatest reachable steer at a travel, toward a steer that is not reached. */
function greatestSteer(m: Mechanism, travelMm: number, steer: number): number {
  const input = inputAt(m, steer);
  const isReached = (share: number): boolean => routeTo(m, travelMm, input * share).reached;
  let [within, beyond] = [0, 1];
  // Steer usually ends where it ends at constant travel. If it does not, the search continues from there.
  const end = travelThenSteerLevel(m, travelMm, input).at.input / input;
  const margin = (0.4 * INPUT_LIMIT) / Math.abs(input);
  for (const share of [end - margin, end + margin]) {
    if (!(share > within && share < beyond)) continue;
    if (isReached(share)) within = share;
    else beyond = share;
  }
  while (Math.abs(input) * (beyond - within) > INPUT_LIMIT) {
    const middle = (within + beyond) / 2;
    if (isReached(middle)) within = middle;
    else beyond = middle;
  }
  return within * steer;
}

/**
 * The pose at a travel (rise of the wheel centre from ride height, mm) and a steer (-1 to +1 of lock, positive =
 * front edge toward the vehicle's left). Closed form in the arm's angle; a bracketed search along the assembly
 * branch of ride height finds the angle. A pose that the mechanism does not reach on that branch is `unreachable` and
 * is never replaced by a reachable one. Steer beyond +-1 is extrapolated. Throws a RangeError for values that are not
 * finite.
 */
export function solvePose(mechanism: Mechanism, travelMm: number, steer: number): PoseResult {
  if (!Number.isFinite(travelMm) || !Number.isFinite(steer))
    throw new RangeError(`a pose needs a finite travel and steer, not ${travelMm} mm and ${steer}`);
  const route = routeTo(mechanism, travelMm, inputAt(mechanism, steer));
  if (!route.reached)
    return {
      kind: 'unreachable',
      travelMm,
      steer,
      reason: reasonFor(mechanism, route),
      nearest: nearestTo(mechanism, travelMm, steer, route),
    };
  const carriers = carriersOf(mechanism, route.at);
  return {
    kind: 'solved',
    travelMm,
    steer,
    carriers,
    residualMm: residualMm(mechanism, carriers, travelMm),
    iterations: route.evaluations,
  };
}
