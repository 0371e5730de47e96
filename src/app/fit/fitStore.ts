import { create } from 'zustand';
import type { MountingChoice } from '../../studies/clocking/mountingChoice.ts';
import type { Wants } from '../../studies/clocking/wants.ts';

interface FitState {
  wants: Wants;
  /** The ways round that are studied, against the corner in hand. */
  choice: MountingChoice;
}

/** What is wanted of the clockings: kept while sheets open and close, and never part of a file. */
export const useFit = create<FitState>(() => ({ wants: {}, choice: 'drawn' }));
