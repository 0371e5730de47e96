import { create } from 'zustand';
import type { Carriers } from '../../mechanism/pose.ts';
import type { Row } from '../../sweep/row.ts';
import type { PoseView } from '../engine.ts';

/** Every pair as measured at one pose: a row of one step. */
export interface Measured {
  travelMm: number;
  steer: number;
  row: Row;
}

interface PoseState {
  travelMm: number;
  /** Of the left corner, -1 to 1. */
  steer: number;
  view: PoseView | undefined;
  /** What is drawn: the last pose that was reached. */
  drawn: Carriers | undefined;
  /** The last answer of the probe; may be of a pose just left. */
  measured: Measured | undefined;
  /** The words of a probe that can measure no more. */
  probeFailure: string | undefined;
  playing: boolean;
}

/** What was measured, if at the pose in hand; undefined while it is of one just left. */
export const measuredNow = ({
  measured,
  travelMm,
  steer,
}: Pick<PoseState, 'measured' | 'travelMm' | 'steer'>): Measured | undefined =>
  measured?.travelMm === travelMm && measured.steer === steer ? measured : undefined;

/** Where the corner stands. Changes at every frame of a motion: what moves with it subscribes and writes to refs. */
export const usePose = create<PoseState>(() => ({
  travelMm: 0,
  steer: 0,
  view: undefined,
  drawn: undefined,
  measured: undefined,
  probeFailure: undefined,
  playing: false,
}));
