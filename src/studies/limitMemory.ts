import { type CornerLimits, measureLimits } from '../sweep/limits.ts';
import type { Setup } from '../sweep/setUp.ts';

/** Limits of joints and dampers, measured once for all corners of a study that have the same. */
export class LimitMemory {
  private readonly known = new Map<string, CornerLimits>();

  /** The limits of a corner at its steps and between them. */
  of({ design: { corner }, mechanism, travelMm, steer }: Setup): CornerLimits {
    // All that `measureLimits` reads; places in the list of parts are part of its answer.
    const parts = corner.parts.map((part) => (part.kind === 'joint' || part.kind === 'damper' ? part : null));
    const key = JSON.stringify([corner.suspension, parts, [...travelMm], [...steer]]);
    const measured = this.known.get(key) ?? measureLimits(corner, mechanism, travelMm, steer);
    this.known.set(key, measured);
    return measured;
  }
}
