import { create } from 'zustand';
import type { Carriers } from '../../../mechanism/pose.ts';
import type { OpenCorner } from '../../state/engine.ts';
import type { Measured } from '../../state/poseStore.ts';

/** A pose kept for comparison; `steer` is that of the left corner. */
export interface HeldPose {
  letter: string;
  travelMm: number;
  steer: number;
}

/** The result at a held pose for the current corner. */
export interface HeldResult {
  /** Undefined if the corner cannot reach the pose. */
  carriers: Carriers | undefined;
  /** Every pair as the engine measured it at exactly this pose; undefined until then. */
  measured: Measured | undefined;
  /** Why the pose cannot be measured. */
  failure: string | undefined;
}

/** More ghosts than this cannot be distinguished in one picture. */
export const LETTERS = ['A', 'B', 'C', 'D'] as const;

interface HoldState {
  poses: readonly HeldPose[];
  /** The corner that `results` belongs to. */
  corner: OpenCorner | undefined;
  /** By letter. */
  results: Readonly<Record<string, HeldResult>>;
}

/** The held poses. View state, never part of a file. */
export const useHold = create<HoldState>(() => ({ poses: [], corner: undefined, results: {} }));

export const heldAt = (poses: readonly HeldPose[], travelMm: number, steer: number): HeldPose | undefined =>
  poses.find((pose) => pose.travelMm === travelMm && pose.steer === steer);

/** Holds a pose under the first free letter. Does nothing if the pose is already held or no letter is free. */
export function hold(travelMm: number, steer: number): void {
  const { poses } = useHold.getState();
  const letter = LETTERS.find((one) => poses.every((pose) => pose.letter !== one));
  if (letter === undefined || heldAt(poses, travelMm, steer) !== undefined) return;
  useHold.setState({ poses: [...poses, { letter, travelMm, steer }] });
}

export function releasePose(letter: string): void {
  useHold.setState(({ poses, results: { [letter]: _, ...results } }) => ({
    poses: poses.filter((pose) => pose.letter !== letter),
    results,
  }));
}

export const releaseAllPoses = (): void => useHold.setState({ poses: [], results: {} });

/** The result at a held pose for a corner; undefined if there is none yet, as after a change of the corner. */
export const heldResult = (state: HoldState, corner: OpenCorner, letter: string): HeldResult | undefined =>
  state.corner === corner ? state.results[letter] : undefined;
