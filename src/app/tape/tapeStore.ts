import { create } from 'zustand';
import type { Feature } from '../../solids/features/feature.ts';
import type { Pick } from './pick.ts';
import type { TapeReader } from './tapeReader.ts';

interface TapeState {
  /** While the tape is out. */
  reader: TapeReader | undefined;
  /** What the tape is held to: none, one or two. */
  picks: readonly Pick[];
  /** What would be picked: it is pointed at, or in hand in the list. */
  offered: Pick | undefined;
  /** Places of surfaces alone are picked, no features. */
  onlyPlaces: boolean;
  /** Features of the solids that have been read so far, by index. */
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

/** Lays the tape down: for another corner, nothing is picked or read. */
export const resetTape = (): void => useTape.setState(EMPTY);

/** Holds the tape to one thing more; a third begins anew. */
export const take = (pick: Pick): void =>
  useTape.setState(({ picks }) => ({
    picks: picks.length < 2 ? [...picks, pick] : [pick],
    offered: undefined,
  }));

export const letGo = (index: number): void =>
  useTape.setState(({ picks }) => ({ picks: picks.filter((_, i) => i !== index) }));
