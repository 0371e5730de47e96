import { create } from 'zustand';
import type { Carriers } from '../../mechanism/pose.ts';
import type { Row } from '../../sweep/row.ts';
import type { PoseView } from './engine.ts';

/** All pairs measured at one pose: a row of one step. */
export interface Measured {
  travelMm: number;
  steer: number;
  row: Row;
}

interface PoseState {
  travelMm: number;
  /** Fraction of lock of the left corner, -1 to 1. */
  steer: number;
  view: PoseView | undefined;
  /** The carriers as drawn: those of the last reachable pose. */
  drawn: Carriers | undefined;
  /** Last result of the probe; may belong to an earlier pose. */
  measured: Measured | undefined;
  /** Message shown when the probe has failed. */
  probeFailure: string | undefined;
  playing: boolean;
}

/** The measurement at the current pose; undefined if the last one belongs to an earlier pose. */
export const measuredNow = ({
  measured,
  travelMm,
  steer,
}: Pick<PoseState, 'measured' | 'travelMm' | 'steer'>): Measured | undefined =>
  measured?.travelMm === travelMm && measured.steer === steer ? measured : undefined;

/** The current pose. Changes at every frame of a motion, so moving elements subscribe and write to refs. */
export const usePose = create<PoseState>(() => ({
  travelMm: 0,
  steer: 0,
  view: undefined,
  drawn: undefined,
  measured: undefined,
  probeFailure: undefined,
  playing: false,
}));
