import type { Design } from '../design/design.ts';
import { withValue } from '../design/edit.ts';
import { parseDesign } from '../design/parse.ts';
import type { Path } from '../design/path.ts';
import { DesignProblems } from '../design/problem.ts';
import { axialStack } from './wheelFrame.ts';

export const HUB_FACE: Path = ['suspension', 'hubFace'];

/**
 * Whether a file gives no place for the hub's face and does not say that the hub follows the wheel. Its wheel's centre plane
 * is then on the hardpoint, and a change of wheel or spacer has to keep the hub where it is.
 */
export const isHubPlacedByWheel = ({ corner: { suspension } }: Design): boolean =>
  suspension.hubFace === undefined && suspension.hubFollowsWheel !== true;

/** The file of a corner with the place of its hub's face as it is now, mm from the wheel-centre hardpoint, to a nanometre. */
export const withHubFace = (source: unknown, { corner }: Design): unknown =>
  withValue(source, HUB_FACE, Number(axialStack(corner).hubFaceY.toFixed(6)));

/** A corner whose hub stays where it is when its wheel or a spacer is changed, unless the file says that the hub follows. */
export function withHeldHub(design: Design): Design {
  if (!isHubPlacedByWheel(design)) return design;
  const read = parseDesign(JSON.stringify(withHubFace(design.source, design)));
  if (read.kind === 'bad') throw new DesignProblems(read.problems);
  return read.design;
}

/**
 * A changed file of a corner, with the place of the hub's face added if the change would move the hub: see
 * `isHubPlacedByWheel`. A file with errors is returned as it is.
 */
export function withHubKept(before: Design, changed: unknown): unknown {
  if (!isHubPlacedByWheel(before)) return changed;
  const read = parseDesign(JSON.stringify(changed));
  if (read.kind === 'bad' || !isHubPlacedByWheel(read.design)) return changed;
  const hubFaceY = (design: Design) => axialStack(design.corner).hubFaceY;
  return hubFaceY(read.design) === hubFaceY(before) ? changed : withHubFace(changed, before);
}
