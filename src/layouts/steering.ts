import { layoutOf } from './layoutOf.ts';
import type { Suspension } from './suspension.ts';

/** Steering input at a lock, mm or degrees, at least 0: outboard is a steer of +1. */
export const lockOf = (suspension: Suspension, lock: 'outboard' | 'inboard'): number =>
  suspension.steering[layoutOf(suspension).steering[lock]] as number;

/** Steering input at a steer of -1 to +1, mm or degrees, positive outboard. */
export const inputOf = (suspension: Suspension, steer: number): number =>
  steer * lockOf(suspension, steer > 0 ? 'outboard' : 'inboard');
