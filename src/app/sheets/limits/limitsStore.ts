import { create } from 'zustand';
import { boundInWords } from '../../../report/limits/stopText.ts';
import { alignmentOver, EVERY_MM } from '../../../studies/limits/alignmentStudy.ts';
import type { LimitsStudy } from '../../../studies/limits/limitsStudy.ts';
import { numberedStretches } from '../../../studies/limits/usableRegion.ts';
import type { OpenCorner } from '../../state/engine.ts';
import { useUsable } from '../../state/usableStore.ts';
import type { FoundStops, LimitsApi } from '../../workers/limits/limitsWorker.ts';
import { StudyRun, type StudyState } from '../../workers/studyRun.ts';

/** The search for stops and its result. Kept while sheets open and close, never part of a file. */
export const useLimits = create<{ state: StudyState<FoundStops> }>(() => ({ state: { kind: 'none' } }));

const run = new StudyRun<LimitsApi, FoundStops>((state) => useLimits.setState({ state }));

/** Outlines the usable part on the map of the corner that was searched. */
function showUsable(setup: OpenCorner, { stops: { region, failing } }: FoundStops): void {
  const edges = failing.length === 0 ? [] : (region?.edges ?? []);
  useUsable.setState({
    usable: {
      designHash: setup.design.hash,
      edges: edges.map((edge) => edge.flatMap(({ points }) => points)),
      stretches: numberedStretches(region).map(({ number, at, stretch }) => ({
        number,
        at,
        bound: boundInWords({ setup }, stretch.bound),
      })),
    },
  });
}

/** Starts a search in its own worker. It supersedes a running one. */
export function findStops(corner: OpenCorner): void {
  const { design, settings } = corner;
  const worker = new Worker(new URL('../../workers/limits/limitsWorker.ts', import.meta.url), {
    type: 'module',
  });
  run.start({ designHash: design.hash, label: 'the corner' }, worker, async (api, onProgress) => {
    const found = await api.find(design, settings, onProgress);
    showUsable(corner, found);
    return found;
  });
}

/** Ends a running search. */
export const cancelStops = (): void => run.cancel();

/** Alignment of a corner, and its stops if they were found for this state of it. */
export function limitsFor(corner: OpenCorner, unit: 'mm' | 'in'): LimitsStudy {
  const { state } = useLimits.getState();
  const found = state.kind === 'done' && state.designHash === corner.design.hash ? state.found : undefined;
  return {
    alignment: alignmentOver(corner.design.corner, EVERY_MM[unit]),
    stops: found && { ...found.stops, setup: corner },
    lockOuts: found?.lockOuts,
  };
}
