import { create } from 'zustand';
import type { PairErrorInWords } from '../../../report/measuringError/measuringErrorInWords.ts';
import type { SolidIds } from '../../../studies/sensitivity/sensitivity.ts';
import { useCorner } from '../../state/cornerStore.ts';
import type { OpenCorner } from '../../state/engine.ts';
import { useView } from '../../state/viewStore.ts';
import type { MeasuringErrorByUnit } from '../../workers/measuringError/measuringErrorWorker.ts';
import type { StudyState } from '../../workers/studyRun.ts';

interface MeasuringErrorStudies {
  /** The last study that was asked for. */
  state: StudyState<MeasuringErrorByUnit>;
  /** The study of the pairs that were not asked for, one after the other. */
  others: StudyState<void>;
  /** Finished studies of one pair each, by `keyOf`, of the corner with this hash. */
  byPair: { designHash: string; found: ReadonlyMap<string, MeasuringErrorByUnit> };
}

/** Studies of the measuring error. Kept while sheets open and close, never part of a file. */
export const useMeasuringError = create<MeasuringErrorStudies>(() => ({
  state: { kind: 'none' },
  others: { kind: 'none' },
  byPair: { designHash: '', found: new Map() },
}));

const keyOf = (between: SolidIds): string => between.join(' ');

/** Keeps a finished study of one pair. */
export const keepPair = (designHash: string, between: SolidIds, found: MeasuringErrorByUnit): void =>
  useMeasuringError.setState(({ byPair }) => {
    const before = byPair.designHash === designHash ? byPair.found : [];
    return { byPair: { designHash, found: new Map([...before, [keyOf(between), found]]) } };
  });

/** The finished study of a corner; undefined if there is none, or the corner has changed since. */
export function foundFor(
  state: StudyState<MeasuringErrorByUnit>,
  designHash: string | undefined,
): MeasuringErrorByUnit | undefined {
  return state.kind === 'done' && state.designHash === designHash ? state.found : undefined;
}

/** The study of a pair of a corner: that of all pairs if there is one. Undefined if the pair was not studied. */
export function foundForPair(
  { state, byPair }: Pick<MeasuringErrorStudies, 'state' | 'byPair'>,
  designHash: string,
  between: SolidIds,
): MeasuringErrorByUnit | undefined {
  if (isStudied(state, designHash, [between])) return foundFor(state, designHash);
  return byPair.designHash === designHash ? byPair.found.get(keyOf(between)) : undefined;
}

/** The study of all pairs of the corner on screen, by unit; undefined if there is none. */
export function useWholeStudy(): MeasuringErrorByUnit | undefined {
  const state = useMeasuringError((studies) => studies.state);
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

/** Whether a pair of a corner is clear within its measuring error, as far as studies of the corner say. */
export function useIsWithin({ design, solids, pairs }: OpenCorner): (pair: number) => boolean {
  const state = useMeasuringError((studies) => studies.state);
  const byPair = useMeasuringError((studies) => studies.byPair);
  const unit = useView((view) => view.unit);
  return (pair) => {
    const { a, b } = pairs[pair];
    const between = [solids[a].id, solids[b].id] as const;
    const study = foundForPair({ state, byPair }, design.hash, between)?.[unit];
    return study !== undefined && studiedPair(study.pairs, ...between)?.isWithin === true;
  };
}
