import { useEffect, useState } from 'react';
import type { Design } from '../../design/design.ts';
import { onWorkerDeath } from '../../executors/workerDeath.ts';
import { type Mounting, mountedDesign } from '../../studies/clocking/apply.ts';
import type { FitFound, FoundCandidate } from './fitFound.ts';
import type { ReachReply, ReachRequest } from './reachWorker.ts';

/** Lines about the bolts of a candidate: whether they can be reached there; none of a corner without bolts. */
export type ReachLines = (candidate: FoundCandidate) => readonly string[];

/**
 * Which bolts can be reached at the candidates of a study, found in a worker of its own as soon as there are some. It belongs to
 * the study: with another one, of another corner or other wants, it is found anew.
 */
export function useReach(found: FitFound, mountings: readonly Mounting[], design: Design): ReachLines {
  const [reached, setReached] = useState<{ of: FitFound; reply: ReachReply }>();
  const { candidates } = found;
  const isAsked = candidates.length > 0 && design.corner.parts.some(({ kind }) => kind === 'bolts');

  // biome-ignore lint/correctness/useExhaustiveDependencies: `found` identifies the corner; turning or mounting it makes a new `design` only
  useEffect(() => {
    if (!isAsked) return;
    const worker = new Worker(new URL('./reachWorker.ts', import.meta.url), { type: 'module' });
    const tell = (reply: ReachReply) => setReached({ of: found, reply });
    onWorkerDeath(worker, (why) => tell({ kind: 'failed', why }));
    worker.addEventListener('message', ({ data }: MessageEvent<ReachReply>) => tell(data));
    worker.postMessage({
      candidates,
      designs: mountings.map((mounting) => mountedDesign(design, mounting)),
    } satisfies ReachRequest);
    return () => worker.terminate();
  }, [found]);

  if (!isAsked) return () => [];
  if (reached?.of !== found) return () => ['bolts: looking whether they can be reached'];
  const { reply } = reached;
  if (reply.kind === 'failed') return () => [`bolts: unknown, ${reply.why}`];
  const keys = candidates.map(keyOf);
  return (candidate) => reply.lines[keys.indexOf(keyOf(candidate))] ?? [];
}

const keyOf = ({ mounting, caliperDeg, hubDeg }: FoundCandidate): string =>
  `${mounting} ${caliperDeg} ${hubDeg}`;
