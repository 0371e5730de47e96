import type { PairAtPose, Proof, ProvedPair } from '../../src/sweep/prove.ts';
import { CARRIER_NUMBERS } from '../../src/sweep/row.ts';

const provedPair = (pair: number, changes: Partial<ProvedPair>): ProvedPair => ({
  pair,
  lowerMm: Number.NEGATIVE_INFINITY,
  foundMm: Number.POSITIVE_INFINITY,
  at: undefined,
  between: undefined,
  cells: 1,
  looks: 1,
  complete: true,
  ...changes,
});

/** A proof with invented outcomes, one a pair: what is made of it is what is tested. */
export const proofOf = (pairs: Partial<ProvedPair>[], lockedOut: Proof['lockedOut'] = []): Proof => ({
  pairs: pairs.map((changes, pair) => provedPair(pair, changes)),
  lockedOut,
});

/** A pair as measured between steps. */
export const atPose = (clearanceMm: number, changes: Partial<PairAtPose> = {}): PairAtPose => ({
  travelMm: 12.5,
  steer: 0.375,
  roadWheelAngleDeg: 9,
  carriers: new Float64Array(CARRIER_NUMBERS),
  clearanceMm,
  errorMm: 0.1,
  pointA: [1, 2, 3],
  pointB: [4, 5, 6],
  ...changes,
});
