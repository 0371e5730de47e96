import { IN_LINE_COSINE_GAP } from '../math/tolerances.ts';
import { type Assembly, assemble } from './assemble.ts';
import { carriersOf } from './carriers.ts';
import { type Followed, followRack, followTravel } from './follow.ts';
import { type Mechanism, rackAt } from './linkage.ts';
import type { PoseResult } from './pose.ts';
import { residualMm } from './residual.ts';

interface Way extends Followed {
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
  if (!steering.reached) return { ...steering, steered: false };
  const travel = followTravel(m, steering.at, travelMm);
  return { ...travel, evaluations: steering.evaluations + travel.evaluations, steered: true };
}

/** Travels straight ahead, then steers, then makes good the little that steering raised or lowered the wheel centre. */
function travelThenSteer(m: Mechanism, travelMm: number, rackMm: number): Way {
  const travel = followTravel(m, rideHeight(m), travelMm);
  if (!travel.reached) return { ...travel, steered: false };
  const steering = followRack(m, travel.at, rackMm);
  const evaluations = travel.evaluations + steering.evaluations;
  if (!steering.reached) return { ...steering, evaluations, steered: false };
  const rest = followTravel(m, steering.at, travelMm);
  return { ...rest, evaluations: evaluations + rest.evaluations, steered: true };
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

/** Bisections of steer until neighbouring values are less than a nanometre of rack apart. */
const STEER_HALVINGS = 40;

function nearestTo(
  m: Mechanism,
  travelMm: number,
  steer: number,
  way: Way,
): { travelMm: number; steer: number } {
  if (way.steered) return { travelMm: way.at.riseMm, steer };
  const straight = followTravel(m, rideHeight(m), travelMm);
  const travel = straight.reached ? travelMm : straight.at.riseMm;
  let [within, beyond] = [0, steer];
  for (let i = 0; i < STEER_HALVINGS; i++) {
    const middle = (within + beyond) / 2;
    if (wayTo(m, travel, rackAt(m, middle)).reached) within = middle;
    else beyond = middle;
  }
  return { travelMm: travel, steer: within };
}

/** A way on the branch from ride height: steering first, or travel first where that is barred. */
function wayTo(m: Mechanism, travelMm: number, rackMm: number): Way {
  const first = steerThenTravel(m, travelMm, rackMm);
  if (first.reached || rackMm === 0) return first;
  const second = travelThenSteer(m, travelMm, rackMm);
  const evaluations = first.evaluations + second.evaluations;
  return { ...(second.reached ? second : first), evaluations };
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
