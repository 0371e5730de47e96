import type { MeasuredLimit } from '../../src/sweep/limit.ts';

/** A joint limit with invented values: it tilts 22 of 24 degrees, proven. `given` replaces values. */
export const inventedLimit = (given: Partial<MeasuredLimit> = {}): MeasuredLimit => ({
  kind: 'jointTilt',
  partIndex: 0,
  label: 'Upper joint',
  unit: 'deg',
  allowed: 24,
  allowedFrom: {
    how: 'computed',
    field: 'allowedTiltDeg',
    dimensions: [
      { name: 'ball', mm: 28.6 },
      { name: 'housing width', mm: 18 },
      { name: 'bolt', mm: 14 },
    ],
  },
  usedAtSteps: new Float64Array(0),
  worst: { travelMm: -50, steer: 1, roadWheelAngleDeg: 20, used: 22 },
  proven: 22.005,
  complete: true,
  betterHousing: undefined,
  ...given,
});
