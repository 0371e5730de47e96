import type { SweepSettings } from '../../../src/sweep/result.ts';

/** A sweep coarse enough to wait for. */
export const COARSE: SweepSettings = { travelSteps: 5, steerSteps: 5, limitMm: 60, chordToleranceMm: 0.5 };
