import { useEffect, useMemo, useRef, useState } from 'react';
import type { Design } from '../../design/design.ts';
import { onWorkerDeath } from '../../executors/workerDeath.ts';
import { type Mounting, mountedDesign } from '../../studies/clocking/apply.ts';
import { type MountingChoice, mountingsFor } from '../../studies/clocking/mountingChoice.ts';
import type { Wants } from '../../studies/clocking/wants.ts';
import type { OpenCorner } from '../engine.ts';
import { type FitFound, type FitSeen, fitKey } from './fitFound.ts';
import { takeFitWorker } from './fitStart.ts';
import type { FitReply, FitRequest } from './fitWorker.ts';

export interface FitState {
  /** Of the corner and the wants in hand; undefined until it is found. */
  found: FitFound | undefined;
  /** How each mounting of `found` differs from the corner in hand. */
  mountings: readonly Mounting[];
  /** What is seen before of one of the mountings, and how that differs from the corner in hand. */
  seen: { of: FitSeen; mounting: Mounting } | undefined;
  progress: { done: number; total: number } | undefined;
  failure: string | undefined;
}

interface Reached {
  last?: { found: FitFound; wants: Wants };
  seen?: { of: FitSeen; wants: Wants };
  progress?: { done: number; total: number };
  failure?: string;
}

/**
 * Studies the clockings of a corner in a worker of its own, anew when the corner, the wants or the choice of mountings change;
 * a corner that is only turned, or mounted another way that was studied too, keeps its study.
 */
export function useFitStudy(corner: OpenCorner, wants: Wants, choice: MountingChoice): FitState {
  const [reached, setReached] = useState<Reached>({});
  const worker = useRef<Worker>(undefined);
  const key = useMemo(() => fitKey(corner.design), [corner]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: `key` identifies the corner of the study; turning the caliper or hub keeps it
  const asked = useMemo(() => keysOf(corner.design, choice), [key, choice]);

  // The same wants of a corner that is turned are another object.
  const wanted = JSON.stringify(wants);
  const { last } = reached;
  const mountings = last?.found.mounted.map(({ key: of }) => asked.get(of));
  const isCurrent =
    mountings?.length === asked.size &&
    !mountings.includes(undefined) &&
    JSON.stringify(last?.wants) === wanted;

  const { seen } = reached;
  const seenMounting =
    seen !== undefined && JSON.stringify(seen.wants) === wanted ? asked.get(seen.of.key) : undefined;

  useEffect(() => {
    const made = takeFitWorker();
    onWorkerDeath(made, (failure) => setReached({ failure }));
    made.addEventListener('message', ({ data }: MessageEvent<FitReply>) => {
      if (data.kind === 'progress')
        setReached((before) => ({ ...before, progress: { done: data.done, total: data.total } }));
      if (data.kind === 'failed') setReached({ failure: data.why });
      if (data.kind === 'seen')
        setReached((before) => ({ ...before, seen: { of: data.seen, wants: data.wants } }));
      if (data.kind === 'found') setReached({ last: { found: data.found, wants: data.wants } });
    });
    worker.current = made;
    return () => made.terminate();
  }, []);

  // biome-ignore lint/correctness/useExhaustiveDependencies: `key` identifies the corner of the study; turning the caliper or hub keeps it
  useEffect(() => {
    setReached(({ last: kept }) => ({ last: kept }));
    const { port1, port2 } = new MessageChannel();
    worker.current?.postMessage({ kind: 'take', port: port2 } satisfies FitRequest, [port2]);
    corner.share(port1).catch((error: Error) => setReached({ failure: error.message }));
  }, [key]);

  // biome-ignore lint/correctness/useExhaustiveDependencies: `wanted` is the text of `wants`, whose object is new after each turn
  useEffect(() => {
    if (isCurrent) return;
    setReached(({ last: kept }) => ({ last: kept }));
    worker.current?.postMessage({ kind: 'study', wants, choice } satisfies FitRequest);
  }, [key, wanted, choice, isCurrent]);
  return {
    found: isCurrent ? last?.found : undefined,
    mountings: isCurrent ? (mountings as Mounting[]) : [],
    seen:
      isCurrent || seen === undefined || seenMounting === undefined
        ? undefined
        : { of: seen.of, mounting: seenMounting },
    progress: reached.progress,
    failure: isCurrent ? undefined : reached.failure,
  };
}

/** The mountings of a choice by the keys of the corner mounted so. */
const keysOf = (design: Design, choice: MountingChoice): Map<string, Mounting> =>
  new Map(
    mountingsFor(design, choice).map((mounting) => [fitKey(mountedDesign(design, mounting)), mounting]),
  );
