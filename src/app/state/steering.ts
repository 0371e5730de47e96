import type { Corner } from '../../design/schema.ts';
import { layoutOf } from '../../layouts/layoutOf.ts';
import { lockOf } from '../../layouts/steering.ts';
import type { LengthUnit } from '../../report/figures.ts';
import type { RuleUnit } from '../kit/ticks.ts';

/**
 * Steer as shown on screen: the steering input from straight ahead, mm or degrees, positive when the wheel's front edge
 * turns toward the vehicle's left. For a right corner, the mirrored one. Screens draw left lock at the left.
 */
interface SteerScale {
  /** Steering input at left lock, at least 0, and at right lock, at most 0. */
  left: number;
  right: number;
  /** Shown steering input for a steer fraction of the left corner. */
  input(steer: number): number;
  /** Steer fraction of the left corner for a shown steering input; 0 toward a lock without travel. */
  steer(input: number): number;
  /** Unit of the input, with lengths in the given one. */
  unit(lengths: LengthUnit): RuleUnit;
}

export function steerScale({ suspension, side }: Pick<Corner, 'suspension' | 'side'>): SteerScale {
  const [outboard, inboard] = [lockOf(suspension, 'outboard'), lockOf(suspension, 'inboard')];
  const sign = side === 'right' ? -1 : 1;
  const [left, right] = sign > 0 ? [outboard, -inboard] : [inboard, -outboard];
  const isAngle = layoutOf(suspension).steering.quantity === 'angle';
  return {
    left,
    right,
    input: (steer) => sign * steer * (steer > 0 ? outboard : inboard) || 0,
    steer(input) {
      const own = sign * input;
      const lock = own > 0 ? outboard : inboard;
      return lock === 0 ? 0 : Math.max(-1, Math.min(1, own / lock)) || 0;
    },
    unit: (lengths) => (isAngle ? '°' : lengths),
  };
}
