import { create } from 'zustand';
import { type Assets, NO_ASSETS } from '../../design/assets.ts';
import type { Problem } from '../../units/problem.ts';

/** One state of the open file, and the change that produced it. */
export interface Change {
  label: string;
  /** JSON of the file, with the values as typed. */
  source: unknown;
  at: Date;
  /** Consecutive changes with the same name within `MERGE_MS` are merged, for example while a value is dragged. */
  merge: string | undefined;
  /** Made during a drag: merged with the previous change of the same name after any time. */
  held?: boolean;
}

/** A file on disk that can be overwritten, and its last known modification time. */
export interface OnDisk {
  handle: FileSystemFileHandle;
  lastModified: number;
}

interface DocumentState {
  fileName: string;
  /** The files beside it; no edit changes them. */
  assets: Assets;
  /** Undefined for examples, and if the browser provides no file handle. */
  onDisk: OnDisk | undefined;
  /** All states since the file was opened, oldest first; states after index `now` are undone. */
  changes: readonly Change[];
  now: number;
  /** The state last opened or saved. */
  saved: unknown;
  /** Problems of the state `checked`. */
  problems: readonly Problem[];
  /** The state checked last; differs from the current state while the current state is being built. */
  checked: unknown;
  /** The state whose corner is on screen; undefined if no state of this file is on screen. */
  shown: Change | undefined;
}

/** All states of a file, with the current, the saved and the shown one. A draft stores these. */
export type History = Pick<DocumentState, 'changes' | 'now' | 'saved' | 'shown'>;

/**
 * Which state of the file is on screen. `current`: the current one. `building`: an earlier one, while the current one is
 * being built. `wrong`: an earlier one, because the current one has wrong values.
 */
export type DocumentStatus = 'current' | 'building' | 'wrong';

/** Limit of the history; a corner file is about 10 kB. */
const MAX_CHANGES = 500;
/** Changes with the same name within this time are merged. */
const MERGE_MS = 1000;

/** The open file and its history. Only the session writes to it. */
export const useDocument = create<DocumentState>(() => ({
  fileName: '',
  assets: NO_ASSETS,
  onDisk: undefined,
  changes: [],
  now: -1,
  saved: undefined,
  problems: [],
  checked: undefined,
  shown: undefined,
}));

/** JSON of the current state of the file; undefined while no file is open. */
export const currentSource = ({ changes, now }: Pick<DocumentState, 'changes' | 'now'>): unknown =>
  changes[now]?.source;

/** See `DocumentStatus`. */
export function statusOf(state: DocumentState): DocumentStatus {
  const source = currentSource(state);
  if (source === undefined || source === state.shown?.source) return 'current';
  return state.checked === source && state.problems.length > 0 ? 'wrong' : 'building';
}

/** Whether the current state differs from the saved one. */
export const isUnsaved = (state: DocumentState): boolean => currentSource(state) !== state.saved;

/** The history with one more change; undone states are dropped. */
export function withChange(
  { changes, now }: Pick<DocumentState, 'changes' | 'now'>,
  change: Change,
): Pick<DocumentState, 'changes' | 'now'> {
  const kept = changes.slice(0, now + 1);
  const last = kept[kept.length - 1];
  const merges =
    change.merge !== undefined &&
    last?.merge === change.merge &&
    (change.held === true || change.at.getTime() - last.at.getTime() < MERGE_MS);
  const all = [...(merges ? kept.slice(0, -1) : kept), change].slice(-MAX_CHANGES);
  return { changes: all, now: all.length - 1 };
}
