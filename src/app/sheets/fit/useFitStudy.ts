import { proxy, transfer } from 'comlink';
import { useEffect, useMemo, useRef, useState } from 'react';
import type { Design } from '../../../design/design.ts';
import { type Mounting, mountedDesign } from '../../../studies/clocking/apply.ts';
import { type MountingChoice, mountingsFor } from '../../../studies/clocking/mountingChoice.ts';
import type { Wants } from '../../../studies/clocking/wants.ts';
import type { OpenCorner } from '../../state/engine.ts';
import { type FitFound, type FitPreview, fitKey } from '../../workers/fit/fitFound.ts';
import type { FitApi } from '../../workers/fit/fitWorkerEntry.ts';
import type { RemoteWorker } from '../../workers/remote.ts';
import { takeFitWorker } from './fitStart.ts';

export interface FitState {
  /** Result for the current corner and requirements; undefined until the study is done. */
  found: FitFound | undefined;
  /** Difference of each mounting of `found` from the current corner. */
  mountings: readonly Mounting[];
  /** Preview of one of the mountings, and its difference from the current corner. */
  preview: { of: FitPreview; mounting: Mounting } | undefined;
  progress: { done: number; total: number } | undefined;
  failure: string | undefined;
}

interface StudyProgress {
  last?: { found: FitFound; wants: Wants };
  preview?: { of: FitPreview; wants: Wants };
  progress?: { done: number; total: number };
  failure?: string;
}

/**
 * Studies the clockings of a corner in its own worker, and again when the corner, the requirements or the choice of mountings
 * change. If the change is only a turn, or another mounting of the same study, the result is reused.
 */
export function useFitStudy(corner: OpenCorner, wants: Wants, choice: MountingChoice): FitState {
  const [reached, setReached] = useState<StudyProgress>({});
  const worker = useRef<RemoteWorker<FitApi>>(undefined);
  const fail = ({ message }: Error) => setReached({ failure: message });
  const key = useMemo(() => fitKey(corner.design), [corner]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: `key` identifies the corner of the study; turning the caliper or hub keeps it
  const mountingOf = useMemo(() => keysOf(corner.design, choice), [key, choice]);

  // After a turn, equal requirements are a new object: compare them as text.
  const wantsText = JSON.stringify(wants);
  const { last } = reached;
  const mountings = last?.found.mounted.map(({ key: of }) => mountingOf.get(of));
  const isCurrent =
    mountings?.length === mountingOf.size &&
    !mountings.includes(undefined) &&
    JSON.stringify(last?.wants) === wantsText;

  const { preview } = reached;
  const previewMounting =
    preview !== undefined && JSON.stringify(preview.wants) === wantsText
      ? mountingOf.get(preview.of.key)
      : undefined;

  useEffect(() => {
    const made = takeFitWorker();
    worker.current = made;
    return () => made.end();
  }, []);

  // biome-ignore lint/correctness/useExhaustiveDependencies: `key` identifies the corner of the study; turning the caliper or hub keeps it
  useEffect(() => {
    setReached(({ last: kept }) => ({ last: kept }));
    const { port1, port2 } = new MessageChannel();
    worker.current?.call<void>((api) => api.take(transfer(port2, [port2]))).catch(fail);
    corner.share(port1).catch(fail);
  }, [key]);

  // biome-ignore lint/correctness/useExhaustiveDependencies: `wantsText` is the text of `wants`, whose object is new after each turn
  useEffect(() => {
    if (isCurrent) return;
    setReached(({ last: kept }) => ({ last: kept }));
    let superseded = false;
    const publish = (progress: StudyProgress) => {
      if (!superseded) setReached((before) => ({ ...before, ...progress }));
    };
    worker.current
      ?.call<FitFound | undefined>(
        (api) =>
          api.study(
            wants,
            choice,
            proxy((done, total) => publish({ progress: { done, total } })),
            proxy((of) => publish({ preview: { of, wants } })),
          ) as Promise<FitFound | undefined>,
      )
      .then((found) => {
        if (superseded || found === undefined) return;
        superseded = true;
        setReached({ last: { found, wants } });
      })
      .catch((error: Error) => {
        if (!superseded) fail(error);
      });
    return () => {
      superseded = true;
    };
  }, [key, wantsText, choice, isCurrent]);
  return {
    found: isCurrent ? last?.found : undefined,
    mountings: isCurrent ? (mountings as Mounting[]) : [],
    preview:
      isCurrent || preview === undefined || previewMounting === undefined
        ? undefined
        : { of: preview.of, mounting: previewMounting },
    progress: reached.progress,
    failure: isCurrent ? undefined : reached.failure,
  };
}

/** The mountings of a choice, by the study key of the corner with that mounting. */
const keysOf = (design: Design, choice: MountingChoice): Map<string, Mounting> =>
  new Map(
    mountingsFor(design, choice).map((mounting) => [fitKey(mountedDesign(design, mounting)), mounting]),
  );
