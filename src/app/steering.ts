import type { Corner } from '../design/schema.ts';

/**
 * Steer as screens show it: rack travel from straight ahead, mm, positive when the wheel's front edge turns toward
 * the vehicle's left, of the corner as it is built (a right one mirrored). Screens draw left lock at the left.
 */
export interface SteerScale {
  /** Rack travel at left lock, 0 or more, and at right lock, 0 or less. */
  leftMm: number;
  rightMm: number;
  /** Shown rack travel of a steer fraction (of the left corner). */
  rackMm(steer: number): number;
  /** Steer fraction (of the left corner) of a shown rack travel; 0 toward a lock of no travel. */
  steer(rackMm: number): number;
}

export function steerScale(corner: Corner): SteerScale {
  const { rackOutboard, rackInboard } = corner.suspension.steering;
  const sign = corner.side === 'right' ? -1 : 1;
  const [leftMm, rightMm] = sign > 0 ? [rackOutboard, -rackInboard] : [rackInboard, -rackOutboard];
  return {
    leftMm,
    rightMm,
    rackMm: (steer) => sign * steer * (steer > 0 ? rackOutboard : rackInboard) || 0,
    steer(rackMm) {
      const own = sign * rackMm;
      const lock = own > 0 ? rackOutboard : rackInboard;
      return lock === 0 ? 0 : Math.max(-1, Math.min(1, own / lock)) || 0;
    },
  };
}
