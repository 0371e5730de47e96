import type { Design } from '../../design/design.ts';
import { withValue } from '../../design/edit.ts';
import { parseDesign } from '../../design/parse.ts';
import { DesignProblems } from '../../design/problem.ts';
import { axialStack } from '../../solids/wheelFrame.ts';

/** Whether a file leaves it to its wheel where the hub's face is. */
export const hubFollowsWheel = ({ corner }: Design): boolean => corner.suspension.hubFace === undefined;

/**
 * A corner whose hub stays where it is, whatever wheel or spacer is put on it. A file that does not say where the hub's
 * face is puts the wheel's centre plane on its hardpoint, so that another wheel would move hub, rotor and caliper instead
 * of itself; here it says where that is.
 */
export function withHeldHub(design: Design): Design {
  if (!hubFollowsWheel(design)) return design;
  const { hubFaceY } = axialStack(design.corner);
  const read = parseDesign(JSON.stringify(withValue(design.source, ['suspension', 'hubFace'], hubFaceY)));
  if (read.kind === 'bad') throw new DesignProblems(read.problems);
  return read.design;
}
