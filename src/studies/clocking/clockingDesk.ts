import type { FastenerBody } from '../../solids/fastenerBodies.ts';
import type { Setup } from '../../sweep/setUp.ts';
import { fastenerPairs } from './fastenerPairs.ts';
import { type FirstLook, firstLookAt } from './firstLook.ts';
import { type Profile, profileOf } from './profile.ts';
import { type StudyPair, studyPairs } from './studyPairs.ts';

/** What a worker of the clocking study is told. */
export type ClockingRequest =
  /** Holds a corner, with the bodies of its fasteners, from then on. */
  | { kind: 'take'; setup: Setup; bodies: readonly FastenerBody[] }
  /** The least margin that is wanted of its pairs from then on. */
  | { kind: 'want'; leastMm: number | undefined }
  /** By their places among the pairs of the study. */
  | { kind: 'look'; pair: number }
  | { kind: 'profile'; pair: number };

/** The answer to a request is of the same kind, or says why there is none. */
export type ClockingReply =
  | { kind: 'take' }
  | { kind: 'want' }
  /** `tookMs`: how long the look took, by which the time of the whole can be guessed. */
  | { kind: 'look'; look: FirstLook; tookMs: number }
  | { kind: 'profile'; profile: Profile }
  | { kind: 'failed'; message: string };

/** The pairs of a study, in its order. */
export const pairsOf = (
  setup: Setup,
  bodies: readonly FastenerBody[],
  leastMm: number | undefined,
): StudyPair[] => [...studyPairs(setup, leastMm), ...fastenerPairs(setup, bodies)];

/** The worker's side: answers requests in order. Errors are told as messages, never thrown. */
export function serveClocking(reply: (message: ClockingReply) => void): (request: ClockingRequest) => void {
  let held: { setup: Setup; bodies: readonly FastenerBody[] } | undefined;
  let pairs: StudyPair[] = [];

  function answer(request: ClockingRequest): ClockingReply {
    if (request.kind === 'take') {
      held = request;
      pairs = [];
      return { kind: 'take' };
    }
    if (held === undefined) throw new Error('a worker was asked about clockings before it held a corner');
    if (request.kind === 'want') {
      pairs = pairsOf(held.setup, held.bodies, request.leastMm);
      return { kind: 'want' };
    }
    const { pair } = pairs[request.pair];
    if (request.kind === 'profile') return { kind: 'profile', profile: profileOf(pair) };
    const began = performance.now();
    const look = firstLookAt(pair);
    return { kind: 'look', look, tookMs: performance.now() - began };
  }

  return (request) => {
    try {
      reply(answer(request));
    } catch (error) {
      reply({ kind: 'failed', message: error instanceof Error ? error.message : String(error) });
    }
  };
}
