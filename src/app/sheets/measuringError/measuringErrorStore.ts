import { create } from 'zustand';
import type { PairErrorInWords } from '../../../report/measuringError/measuringErrorInWords.ts';
import type { SolidIds } from '../../../studies/sensitivity/sensitivity.ts';
import { useCorner } from '../../state/cornerStore.ts';
import type { OpenCorner } from '../../state/engine.ts';
import { useView } from '../../state/viewStore.ts';
import type { MeasuringErrorByUnit } from '../../workers/measuringError/measuringErrorWorker.ts';
import type { StudyState } from '../../workers/studyRun.ts';

/** The last study of the measuring error. Kept while sheets open and close, never part of a file. */
export const useMeasuringError = create<{ state: StudyState<MeasuringErrorByUnit> }>(() => ({
  state: { kind: 'none' },
}));

/** The finished study of a corner; undefined if there is none, or the corner has changed since. */
export function foundFor(
  state: StudyState<MeasuringErrorByUnit>,
  designHash: string | undefined,
): MeasuringErrorByUnit | undefined {
  return state.kind === 'done' && state.designHash === designHash ? state.found : undefined;
}

/** The study of all pairs of the corner on screen, by unit; undefined if there is none. */
export function useWholeStudy(): MeasuringErrorByUnit | undefined {
  const { state } = useMeasuringError();
  const hash = useCorner(({ corner }) => corner?.design.hash);
  const found = foundFor(state, hash);
  return found?.mm.among === undefined ? found : undefined;
}

/** Whether all of some pairs of a corner were studied. */
export function isStudied(
  state: StudyState<MeasuringErrorByUnit>,
  designHash: string,
  among: readonly SolidIds[],
): boolean {
  const found = foundFor(state, designHash);
  if (found === undefined) return false;
  const { among: studied } = found.mm;
  return studied === undefined || among.every(([a, b]) => studied.some(([c, d]) => a === c && b === d));
}

/** The studied pair of two solids, by their ids; undefined if it was not studied. */
export const studiedPair = (
  pairs: readonly PairErrorInWords[],
  a: string,
  b: string,
): PairErrorInWords | undefined => pairs.find(({ between }) => between[0] === a && between[1] === b);

/** Whether a pair of a corner is clear within its measuring error, as far as a study of the corner says. */
export function useIsWithin({ design, solids, pairs }: OpenCorner): (pair: number) => boolean {
  const { state } = useMeasuringError();
  const unit = useView((view) => view.unit);
  const studied = foundFor(state, design.hash)?.[unit].pairs ?? [];
  return (pair) => {
    const { a, b } = pairs[pair];
    return studiedPair(studied, solids[a].id, solids[b].id)?.isWithin === true;
  };
}
