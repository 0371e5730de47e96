import { contactOf, contactReach, type Extent } from '../clearance/contact.ts';
import { compose, identity, invert, type Rigid, translation } from '../math/rigid.ts';
import { solvePose } from '../mechanism/solvePose.ts';
import { loadModeller } from '../solids/modeller.ts';
import { sharedVolumeMm3 } from '../solids/sharedVolume.ts';
import { axialStack, vehicleFromWheelAxis } from '../solids/wheelFrame.ts';
import type { Pair } from './pair.ts';
import { meshBeside, type Setup } from './setUp.ts';

/** Contact of a touching pair at one pose. */
export interface PairContact {
  /** Length of the contact curve between the meshes. */
  lengthMm: number;
  /** Volume shared by the two meshes outside the zones; undefined if a mesh is open. */
  sharedVolumeMm3: number | undefined;
  /**
   * Box that holds all contact of the true parts at that pose; chord errors and the mechanism's residual are
   * included. x forward of the wheel axis, y outboard of the hub's wheel-mounting face, z up. The axes turn with the
   * upright; left corner.
   */
  reach: Extent;
}

/**
 * The contact of a pair at a pose; a fit pair is measured at ride height. Undefined if the surfaces do not meet or
 * the pose is not reached.
 */
export async function pairContact(
  setup: Setup,
  index: number,
  { travelMm, steer }: { travelMm: number; steer: number },
): Promise<PairContact | undefined> {
  const { corner } = setup.design;
  const pair = setup.pairs[index];
  const pose = solvePose(setup.mechanism, pair.moves ? travelMm : 0, pair.moves ? steer : 0);
  if (pose.kind !== 'solved') return undefined;
  const vehicleFrom = (part: number): Rigid =>
    pair.moves ? pose.carriers[setup.solids[part].carrier] : identity();
  const vehicleFromA = vehicleFrom(pair.a);
  const aFromB = compose(invert(vehicleFromA), vehicleFrom(pair.b));
  const vehicleFromWheel = compose(pose.carriers.upright, vehicleFromWheelAxis(corner.suspension));
  const vehicleFromHubFace = compose(vehicleFromWheel, translation([0, axialStack(corner).hubFaceY, 0]));
  const { a, b } = setup.bodies[index];
  const errorMm = a.chordErrorMm + b.chordErrorMm + (pair.moves ? 2 * pose.residualMm : 0);
  const hubFaceFromA = compose(invert(vehicleFromHubFace), vehicleFromA);
  const reach = contactReach(a.surface, b.surface, aFromB, errorMm, hubFaceFromA);
  if (reach === undefined) return undefined;
  return {
    lengthMm: contactOf(a.surface, b.surface, aFromB).lengthMm,
    sharedVolumeMm3: a.closed && b.closed ? await sharedVolume(setup, pair, aFromB) : undefined,
    reach,
  };
}

async function sharedVolume({ solids }: Setup, { a, b, zones }: Pair, aFromB: Rigid): Promise<number> {
  const [one, other] = [meshBeside(solids[a], solids[b]), meshBeside(solids[b], solids[a])];
  return sharedVolumeMm3(await loadModeller(), one.mesh, other.mesh, aFromB, zones);
}
