import type { Design } from '../design/design.ts';
import { withValue } from '../design/edit.ts';
import { parseDesign } from '../design/parse.ts';
import type { Path } from '../design/path.ts';
import { DesignProblems } from '../units/problem.ts';
import { axialStack } from './wheelFrame.ts';

export const HUB_FACE: Path = ['suspension', 'hubFace'];

/**
 * Whether a file has neither `hubFace` nor `hubFollowsWheel`. The rim's centre plane is then on the hardpoint, and a change
 * of wheel or spacer must keep the hub in place.
 */
export const isHubPlacedByWheel = ({ corner: { suspension } }: Design): boolean =>
  suspension.hubFace === undefined && suspension.hubFollowsWheel !== true;

/** The file of a corner with its current `hubFace`, mm from the wheel-centre hardpoint, rounded to a nanometre. */
export const withHubFace = (source: unknown, { corner }: Design): unknown =>
  withValue(source, HUB_FACE, Number(axialStack(corner).hubFaceY.toFixed(6)));

/** A corner whose hub stays in place when the wheel or a spacer changes, unless `hubFollowsWheel` is true. */
export function withHeldHub(design: Design): Design {
  if (!isHubPlacedByWheel(design)) return design;
  const read = parseDesign(JSON.stringify(withHubFace(design.source, design)), design.assets);
  if (read.kind === 'bad') throw new DesignProblems(read.problems);
  return read.design;
}

/**
 * A changed file of a corner, with `hubFace` added if the change would move the hub: see `isHubPlacedByWheel`. A file with
 * errors is returned unchanged.
 */
export function withHubKept(before: Design, changed: unknown): unknown {
  if (!isHubPlacedByWheel(before)) return changed;
  const read = parseDesign(JSON.stringify(changed), before.assets);
  if (read.kind === 'bad' || !isHubPlacedByWheel(read.design)) return changed;
  const hubFaceY = (design: Design) => axialStack(design.corner).hubFaceY;
  return hubFaceY(read.design) === hubFaceY(before) ? changed : withHubFace(changed, before);
}
