import type { PairState } from '../findings/findings.ts';
import type { LimitState } from '../findings/limitFindings.ts';

/**
 * What a report says, before it is HTML or Markdown: plain text throughout, so that both carry the same words and
 * figures and each writer escapes every string.
 */
export interface ReportContent {
  title: string;
  /** One line under the title. */
  subtitle: string;
  /** `words`: the state, and for a clear corner how many values it rests on that nobody measured. */
  verdict: { state: PairState; words: string; sentence: string };
  sections: Section[];
}

export interface Section {
  title: string;
  blocks: Block[];
}

export type Block =
  | { kind: 'text'; text: string }
  | { kind: 'list'; items: string[] }
  /** Warnings that must not be overlooked. */
  | { kind: 'caution'; items: string[] }
  | Table
  /** The sweep map; a writer without pictures leaves it to the table that follows. */
  | { kind: 'map' };

export interface Table {
  kind: 'table';
  columns: Column[];
  rows: Row[];
}

export interface Column {
  title: string;
  /** Figures, set to the right. */
  figure?: boolean;
}

export interface Row {
  cells: string[];
  /** State of the pair, joint or damper that the row is about. */
  state?: PairState | LimitState;
}

const MARKS: Record<PairState | LimitState, string> = {
  touches: '✕',
  binds: '✕',
  tight: '◣',
  clear: '',
  far: '',
  unknown: '?',
};

/** A state as a word and a mark: "✕ touches", "clear". */
export const stateInWords = (state: PairState | LimitState): string => `${MARKS[state]} ${state}`.trim();
