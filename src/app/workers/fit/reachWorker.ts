import { expose } from 'comlink';
import type { Design } from '../../../design/design.ts';
import { boltsInWords } from '../../../report/clocking/reachWords.ts';
import { reachAt } from '../../../studies/clocking/reach.ts';
import type { FoundCandidate } from './fitFound.ts';

const api = {
  /** Lines about the bolts of each candidate, in their order. `designs`: the corner of each mounting. */
  async reachLines(
    candidates: readonly FoundCandidate[],
    designs: readonly Design[],
  ): Promise<readonly (readonly string[])[]> {
    const reach = await reachAt(candidates, ({ mounting }) => designs[mounting]);
    return reach.map((study) => boltsInWords(study, designs[study.candidate.mounting].corner));
  },
};
export type ReachApi = typeof api;
expose(api);
