import { create } from 'zustand';
import type { Carriers } from '../../mechanism/pose.ts';
import type { OpenCorner } from '../engine.ts';
import type { Measured } from '../stores/poseStore.ts';

/** A pose that was put by to be looked at beside others; steer of the left corner. */
export interface HeldPose {
  letter: string;
  travelMm: number;
  steer: number;
}

/** What is known of a held pose in the corner in hand. */
export interface HeldKnown {
  /** Undefined where that corner does not reach the pose. */
  carriers: Carriers | undefined;
  /** Every pair as the engine measured it at this very pose; undefined until it has. */
  measured: Measured | undefined;
  /** The words of an engine that cannot measure it. */
  failure: string | undefined;
}

/** As many as can be told apart in one picture. */
export const LETTERS = ['A', 'B', 'C', 'D'] as const;

interface HoldState {
  poses: readonly HeldPose[];
  /** The corner that `known` is about: of another nothing is known. */
  corner: OpenCorner | undefined;
  /** By letter. */
  known: Readonly<Record<string, HeldKnown>>;
}

/** The poses held: how things are shown, and never part of a file. */
export const useHold = create<HoldState>(() => ({ poses: [], corner: undefined, known: {} }));

export const heldAt = (poses: readonly HeldPose[], travelMm: number, steer: number): HeldPose | undefined =>
  poses.find((pose) => pose.travelMm === travelMm && pose.steer === steer);

/** Holds a pose under the first letter that is free; nothing where it is held already or no letter is left. */
export function hold(travelMm: number, steer: number): void {
  const { poses } = useHold.getState();
  const letter = LETTERS.find((one) => poses.every((pose) => pose.letter !== one));
  if (letter === undefined || heldAt(poses, travelMm, steer) !== undefined) return;
  useHold.setState({ poses: [...poses, { letter, travelMm, steer }] });
}

export function letGo(letter: string): void {
  useHold.setState(({ poses, known: { [letter]: _, ...known } }) => ({
    poses: poses.filter((pose) => pose.letter !== letter),
    known,
  }));
}

export const letAllGo = (): void => useHold.setState({ poses: [], known: {} });

/** What is known of a held pose in a corner; undefined where that is nothing, as after a change of the corner. */
export const knownOf = (state: HoldState, corner: OpenCorner, letter: string): HeldKnown | undefined =>
  state.corner === corner ? state.known[letter] : undefined;
