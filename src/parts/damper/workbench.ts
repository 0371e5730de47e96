import { damperLengths } from '../../app/state/usualLimits.ts';
import { defaultNumber } from '../../design/fields.ts';
import { distance } from '../../math/vec.ts';
import type { WorkbenchKind } from '../workbenchKind.ts';

// All figures in this file: common practice, no source.

/** Usual dimensions, mm. */
export const USUAL_DAMPER = { bodyDiameter: 46, rodDiameter: 14 };
/** Gap between a closed damper's body and the eye on its rod, mm. */
const CLOSED_GAP_MM = 2;

export const damper: WorkbenchKind<'damper'> = {
  /** A stroke that covers the corner's travel and lock with room to spare. */
  start({ suspension }) {
    const { damper } = suspension;
    const between = damper === undefined ? 400 : distance(damper.chassisMount, damper.armMount);
    const bodyLength = Math.round(0.6 * between);
    const lengths = damperLengths(suspension);
    if (lengths === undefined) return { ...USUAL_DAMPER, bodyLength };
    const closedLength = Math.floor(lengths.closedMm);
    return {
      ...USUAL_DAMPER,
      bodyLength: Math.min(
        bodyLength,
        closedLength - defaultNumber('damper', 'eyeDiameter') / 2 - CLOSED_GAP_MM,
      ),
      closedLength,
      openLength: Math.ceil(lengths.openMm),
    };
  },
  groups: {
    spring: ({ bodyDiameter, bodyLength }) => ({
      outerDiameter: Math.round(bodyDiameter + 26),
      seat: Math.round(0.36 * bodyLength),
    }),
  },
  solids: {
    damperBody: { tone: '#918f64', key: [['bodyDiameter', 'Ø ', '']] },
    damperRod: { tone: '#719776', key: [['rodDiameter', 'Ø ', '']] },
  },
};
