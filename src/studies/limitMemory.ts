import { type CornerLimits, measureLimits } from '../proof/limits.ts';
import type { Setup } from '../sweep/setUp.ts';

/** Cache of the limits of joints and dampers for the corners of a study. */
export class LimitMemory {
  private readonly known = new Map<string, CornerLimits>();

  /** The limits of a corner at its steps and between them. */
  of({ design: { corner }, mechanism, travelMm, steer }: Setup): CornerLimits {
    const { suspension, driveShaft, brakeHose } = corner;
    // Everything that `measureLimits` reads. The indices of the parts are in its result, so other parts keep their
    // places as null.
    const parts = corner.parts.map((part) => (part.kind === 'joint' || part.kind === 'damper' ? part : null));
    const key = JSON.stringify([suspension, driveShaft, brakeHose, parts, [...travelMm], [...steer]]);
    const measured = this.known.get(key) ?? measureLimits(corner, mechanism, travelMm, steer);
    this.known.set(key, measured);
    return measured;
  }
}
