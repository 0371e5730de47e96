import type { SweepSettings } from '../../../src/sweep/result.ts';

/** Settings of a coarse, fast sweep. */
export const COARSE: SweepSettings = { travelSteps: 5, steerSteps: 5, limitMm: 60, chordToleranceMm: 0.5 };
