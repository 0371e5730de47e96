import type { Design } from '../../design/design.ts';
import { boltsInWords } from '../../report/clocking/reachWords.ts';
import { reachAt } from '../../studies/clocking/reach.ts';
import type { FoundCandidate } from './fitFound.ts';

export interface ReachRequest {
  candidates: readonly FoundCandidate[];
  /** Of each mounting: the corner mounted so. */
  designs: readonly Design[];
}

export type ReachReply =
  /** Lines about the bolts of each candidate, in their order. */
  { kind: 'told'; lines: readonly (readonly string[])[] } | { kind: 'failed'; why: string };

const reply = (message: ReachReply) => self.postMessage(message);

self.addEventListener('message', ({ data: { candidates, designs } }: MessageEvent<ReachRequest>) => {
  reachAt(candidates, ({ mounting }) => designs[mounting]).then(
    (reach) =>
      reply({
        kind: 'told',
        lines: reach.map((study) => boltsInWords(study, designs[study.candidate.mounting].corner)),
      }),
    (error: Error) => reply({ kind: 'failed', why: error.message }),
  );
});
