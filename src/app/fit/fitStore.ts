import { create } from 'zustand';
import type { MountingChoice } from '../../studies/clocking/mountingChoice.ts';
import type { Wants } from '../../studies/clocking/wants.ts';

interface FitState {
  wants: Wants;
  /** The ways round that are studied, against the corner in hand. */
  choice: MountingChoice;
  /** What the choice is once the corner in hand has this key: it is mounted as that one is by then. */
  next: { key: string; choice: MountingChoice } | undefined;
}

/** The ways round that are studied of the corner with this key. */
export const choiceFor = (
  { choice, next }: Pick<FitState, 'choice' | 'next'>,
  key: string,
): MountingChoice => (next?.key === key ? next.choice : choice);

/** What is wanted of the clockings: kept while sheets open and close, and never part of a file. */
export const useFit = create<FitState>(() => ({ wants: {}, choice: 'drawn', next: undefined }));
