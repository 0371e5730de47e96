import { create } from 'zustand';
import type { Feature } from '../../../solids/features/feature.ts';
import type { Pick } from '../../workers/tape/pick.ts';
import type { TapeReader } from '../../workers/tape/tapeReader.ts';

interface TapeState {
  /** Defined while the tape is open. */
  reader: TapeReader | undefined;
  /** None, one or two. */
  picks: readonly Pick[];
  /** The feature under the pointer, or the active one in the list. */
  offered: Pick | undefined;
  /** Whether only surface points can be picked, no features. */
  onlyPlaces: boolean;
  /** Features found so far, by index of the solid. */
  features: ReadonlyMap<number, readonly Feature[]>;
  failure: string | undefined;
}

const EMPTY: TapeState = {
  reader: undefined,
  picks: [],
  offered: undefined,
  onlyPlaces: false,
  features: new Map(),
  failure: undefined,
};

export const useTape = create<TapeState>(() => EMPTY);

/** Clears picks and features, as for another corner. */
export const resetTape = (): void => useTape.setState(EMPTY);

/** Adds a pick. A third pick starts a new measurement. */
export const addPick = (pick: Pick): void =>
  useTape.setState(({ picks }) => ({
    picks: picks.length < 2 ? [...picks, pick] : [pick],
    offered: undefined,
  }));

export const removePick = (index: number): void =>
  useTape.setState(({ picks }) => ({ picks: picks.filter((_, i) => i !== index) }));
