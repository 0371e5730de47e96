import type { Remote } from 'comlink';
import { useEffect, useState } from 'react';
import type { Design } from '../../../design/design.ts';
import { type Mounting, mountedDesign } from '../../../studies/clocking/apply.ts';
import type { FitFound, FoundCandidate } from '../../workers/fit/fitFound.ts';
import type { ReachApi } from '../../workers/fit/reachWorker.ts';
import { callOnce } from '../../workers/remote.ts';

/** Lines about the bolt access at a candidate; empty for a corner without bolts. */
export type ReachLines = (candidate: FoundCandidate) => readonly string[];

type Reply = { kind: 'done'; lines: readonly (readonly string[])[] } | { kind: 'failed'; why: string };

/**
 * Checks in its own worker which bolts can be reached at the candidates of a study. A new study, of another corner or with
 * other requirements, is checked again.
 */
export function useReach(found: FitFound, mountings: readonly Mounting[], design: Design): ReachLines {
  const [reached, setReached] = useState<{ of: FitFound; reply: Reply }>();
  const { candidates } = found;
  const needsCheck = candidates.length > 0 && design.corner.parts.some(({ kind }) => kind === 'bolts');

  // biome-ignore lint/correctness/useExhaustiveDependencies: `found` identifies the corner; turning or mounting it makes a new `design` only
  useEffect(() => {
    if (!needsCheck) return;
    const worker = new Worker(new URL('../../workers/fit/reachWorker.ts', import.meta.url), {
      type: 'module',
    });
    const designs = mountings.map((mounting) => mountedDesign(design, mounting));
    const { result, cancel } = callOnce(worker, (api: Remote<ReachApi>) =>
      api.reachLines(candidates, designs),
    );
    const publish = (reply: Reply) => setReached({ of: found, reply });
    result.then(
      (lines) => publish({ kind: 'done', lines }),
      ({ message }: Error) => publish({ kind: 'failed', why: message }),
    );
    return cancel;
  }, [found]);

  if (!needsCheck) return () => [];
  if (reached?.of !== found) return () => ['bolts: checking access'];
  const { reply } = reached;
  if (reply.kind === 'failed') return () => [`bolts: unknown, ${reply.why}`];
  const keys = candidates.map(keyOf);
  return (candidate) => reply.lines[keys.indexOf(keyOf(candidate))] ?? [];
}

const keyOf = ({ mounting, caliperDeg, hubDeg }: FoundCandidate): string =>
  `${mounting} ${caliperDeg} ${hubDeg}`;
