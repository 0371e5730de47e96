import { create } from 'zustand';
import type { Problem } from '../../design/problem.ts';

/** One state of the file in hand, and what made it. */
export interface Change {
  label: string;
  /** The JSON of the file as it was typed. */
  source: unknown;
  at: Date;
  /** Changes of the same name that follow one another closely are one: a value that is dragged. */
  merge: string | undefined;
  /** Made while something is held: one change with those of the same name before it, however long it is held. */
  held?: boolean;
}

/** A file on the disk that can be written back to, and when it was last written as far as is known here. */
export interface OnDisk {
  handle: FileSystemFileHandle;
  lastModified: number;
}

interface DocumentState {
  fileName: string;
  /** Undefined where the browser gives no hold of the file, and for examples. */
  onDisk: OnDisk | undefined;
  /** All states since the file was opened, oldest first; those after `now` were undone. */
  changes: readonly Change[];
  now: number;
  /** The state that was last opened or saved. */
  saved: unknown;
  /** What is wrong with the state `checked`. */
  problems: readonly Problem[];
  /** The state that was checked last; another than the one in hand while that is being built. */
  checked: unknown;
  /** The state whose corner is on screen; undefined while no state of this file is. */
  shown: Change | undefined;
}

/** A file's states with the one in hand, the one last saved and the one on screen: all that a draft must keep. */
export type History = Pick<DocumentState, 'changes' | 'now' | 'saved' | 'shown'>;

/**
 * How the corner on screen relates to the file: of the state in hand; of an earlier one while the state in hand is being
 * built; of an earlier one because the state in hand has wrong values.
 */
export type Standing = 'current' | 'building' | 'wrong';

/** Most states that can be undone: a corner file is some 10 kB. */
const MOST_CHANGES = 500;
/** Changes of the same name within this time are one. */
const MERGE_MS = 1000;

/** The file in hand and its history. Written by the session alone. */
export const useDocument = create<DocumentState>(() => ({
  fileName: '',
  onDisk: undefined,
  changes: [],
  now: -1,
  saved: undefined,
  problems: [],
  checked: undefined,
  shown: undefined,
}));

/** The state of the file in hand; undefined while none is open. */
export const sourceInHand = ({ changes, now }: Pick<DocumentState, 'changes' | 'now'>): unknown =>
  changes[now]?.source;

/** See `Standing`. */
export function standingOf(state: DocumentState): Standing {
  const source = sourceInHand(state);
  if (source === undefined || source === state.shown?.source) return 'current';
  return state.checked === source && state.problems.length > 0 ? 'wrong' : 'building';
}

/** Whether something would be lost if the file were closed. */
export const isUnsaved = (state: DocumentState): boolean => sourceInHand(state) !== state.saved;

/** The history with one more change, in place of all that was undone. */
export function withChange(
  { changes, now }: Pick<DocumentState, 'changes' | 'now'>,
  change: Change,
): Pick<DocumentState, 'changes' | 'now'> {
  const kept = changes.slice(0, now + 1);
  const last = kept[kept.length - 1];
  const isMore =
    change.merge !== undefined &&
    last?.merge === change.merge &&
    (change.held === true || change.at.getTime() - last.at.getTime() < MERGE_MS);
  const all = [...(isMore ? kept.slice(0, -1) : kept), change].slice(-MOST_CHANGES);
  return { changes: all, now: all.length - 1 };
}
