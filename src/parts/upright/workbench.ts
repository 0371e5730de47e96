import { jointOf } from '../../solids/jointPlace.ts';
import { JOINT_BOLT_LENGTH_MM } from '../joint/workbench.ts';
import type { WorkbenchKind } from '../workbenchKind.ts';

/** Usual dimensions, mm: common practice, no source. `kickOutRadius`: the largest. */
export const USUAL_UPRIGHT = {
  plateThickness: 12,
  hubMount: { diameter: 140, bore: 76 },
  legWidth: 50,
  kickOutRadius: 78,
  steeringArm: { width: 40, thickness: 16 },
  jointMounts: { diameter: 36, height: 20 },
};

export const upright: WorkbenchKind<'upright'> = {
  /** No joint's bolt protrudes from its boss. */
  start(corner) {
    const bolts = corner.parts.flatMap((part) =>
      part.kind === 'joint' && jointOf(corner, part.at).bolt === 'upright' ? [part.boltLength] : [],
    );
    const longest = Math.max(...(bolts.length > 0 ? bolts : [JOINT_BOLT_LENGTH_MM]));
    return { ...USUAL_UPRIGHT, jointGap: Math.max(0, longest / 2 - USUAL_UPRIGHT.jointMounts.height) };
  },
  groups: {},
  solids: { upright: { tone: '#7390a9', key: [['plateThickness', 'plate ', '']] } },
};
