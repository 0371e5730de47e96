import { create } from 'zustand';
import type { MountingChoice } from '../../../studies/clocking/mountingChoice.ts';
import type { Wants } from '../../../studies/clocking/wants.ts';

interface FitState {
  wants: Wants;
  /** The mountings to study, relative to the current corner. */
  choice: MountingChoice;
  /** The choice once the current corner has this key, that is, once it has the chosen mounting itself. */
  next: { key: string; choice: MountingChoice } | undefined;
}

/** The mountings to study for the corner with this key. */
export const choiceFor = (
  { choice, next }: Pick<FitState, 'choice' | 'next'>,
  key: string,
): MountingChoice => (next?.key === key ? next.choice : choice);

/** Requirements for the clockings. Kept while sheets open and close, never part of a file. */
export const useFit = create<FitState>(() => ({ wants: {}, choice: 'drawn', next: undefined }));
