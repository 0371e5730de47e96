import { doubleWishboneRack } from '../../src/layouts/doubleWishboneRack/layout.ts';
import type { PairAtPose, Proof, ProvedPair } from '../../src/proof/prove.ts';
import { carrierNumbers } from '../../src/sweep/row.ts';

const CARRIERS = Object.keys(doubleWishboneRack.carriers);

const provedPair = (pair: number, changes: Partial<ProvedPair>): ProvedPair => ({
  pair,
  lowerMm: Number.NEGATIVE_INFINITY,
  foundMm: Number.POSITIVE_INFINITY,
  at: undefined,
  between: undefined,
  cells: 1,
  evaluations: 1,
  complete: true,
  ...changes,
});

/** A proof with invented results, one per pair, to test what is derived from it. */
export const proofOf = (pairs: Partial<ProvedPair>[], lockedOut: Proof['lockedOut'] = []): Proof => ({
  pairs: pairs.map((changes, pair) => provedPair(pair, changes)),
  lockedOut,
});

/** A pair measured between steps. */
export const atPose = (clearanceMm: number, changes: Partial<PairAtPose> = {}): PairAtPose => ({
  travelMm: 12.5,
  steer: 0.375,
  roadWheelAngleDeg: 9,
  carriers: new Float64Array(carrierNumbers(CARRIERS)),
  clearanceMm,
  errorMm: 0.1,
  pointA: [1, 2, 3],
  pointB: [4, 5, 6],
  ...changes,
});
