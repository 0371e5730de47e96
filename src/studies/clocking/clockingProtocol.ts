import type { FastenerBody } from '../../solids/fasteners/fastenerBodies.ts';
import type { Setup } from '../../sweep/setUp.ts';
import { fastenerPairs } from './fastenerPairs.ts';
import { type FirstEstimate, firstEstimateOf } from './firstEstimate.ts';
import { type Profile, profileOf } from './profile.ts';
import { type StudyPair, studyPairs } from './studyPairs.ts';

/** Requests to a worker of the clocking study. */
export type ClockingRequest =
  /** Sets the corner and the bodies of its fasteners. */
  | { kind: 'setCorner'; setup: Setup; bodies: readonly FastenerBody[] }
  /** Sets the smallest margin required of the pairs. */
  | { kind: 'setMargin'; minMarginMm: number | undefined }
  /** Estimates or measures a pair, by its index in the study. */
  | { kind: 'estimate'; pair: number }
  | { kind: 'profile'; pair: number };

/** A reply has the kind of its request, or gives the reason why the request failed. */
export type ClockingReply =
  | { kind: 'setCorner' }
  | { kind: 'setMargin' }
  /** `tookMs`: time of the estimate, from which the time of the measurement is predicted. */
  | { kind: 'estimate'; estimate: FirstEstimate; tookMs: number }
  | { kind: 'profile'; profile: Profile }
  | { kind: 'failed'; message: string };

/** The pairs of a study, in its order. */
export const pairsOf = (
  setup: Setup,
  bodies: readonly FastenerBody[],
  minMarginMm: number | undefined,
): StudyPair[] => [...studyPairs(setup, minMarginMm), ...fastenerPairs(setup, bodies)];

/** The worker's side: replies to requests in order. Errors are sent as replies, never thrown. */
export function serveClocking(reply: (message: ClockingReply) => void): (request: ClockingRequest) => void {
  let current: { setup: Setup; bodies: readonly FastenerBody[] } | undefined;
  let pairs: StudyPair[] = [];

  function handle(request: ClockingRequest): ClockingReply {
    if (request.kind === 'setCorner') {
      current = request;
      pairs = [];
      return { kind: 'setCorner' };
    }
    if (current === undefined) throw new Error('the worker has no corner yet: send setCorner first');
    if (request.kind === 'setMargin') {
      pairs = pairsOf(current.setup, current.bodies, request.minMarginMm);
      return { kind: 'setMargin' };
    }
    const { pair } = pairs[request.pair];
    if (request.kind === 'profile') return { kind: 'profile', profile: profileOf(pair) };
    const startMs = performance.now();
    const estimate = firstEstimateOf(pair);
    return { kind: 'estimate', estimate, tookMs: performance.now() - startMs };
  }

  return (request) => {
    try {
      reply(handle(request));
    } catch (error) {
      reply({ kind: 'failed', message: error instanceof Error ? error.message : String(error) });
    }
  };
}
