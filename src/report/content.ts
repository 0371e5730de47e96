import type { PairState } from '../findings/findings.ts';
import type { LimitState } from '../findings/limitFindings.ts';

/** Contents of a report for HTML and Markdown alike. Every string is plain text, which each writer escapes. */
export interface ReportContent {
  title: string;
  /** One line under the title. */
  subtitle: string;
  /** `words`: the state, and for a clear corner the number of assumed values that it depends on. */
  verdict: { state: PairState; words: string; sentence: string };
  sections: Section[];
}

export interface Section {
  title: string;
  blocks: Block[];
  /** Name of the section, for links to it. */
  id?: string;
  /** Whether it starts a page when printed. */
  startsPage?: boolean;
}

export type Block =
  | { kind: 'text'; text: string }
  | { kind: 'list'; items: string[] }
  /** Warnings, emphasized. */
  | { kind: 'caution'; items: string[] }
  | Table
  /** A drawing as one SVG element, with the text that follows at its left if `isAside`. Markdown leaves it out. */
  | { kind: 'drawing'; svg: string; isAside?: boolean }
  /** Details that a reader on a screen opens when needed. */
  | { kind: 'folded'; title: string; blocks: Block[] };

export interface Table {
  kind: 'table';
  columns: Column[];
  rows: Row[];
}

export interface Column {
  title: string;
  /** True for figures, which are aligned right. */
  figure?: boolean;
}

export interface Row {
  cells: string[];
  /** State of the pair, joint or damper that the row is about. */
  state?: PairState | LimitState;
  /** Id of the section that its first cell links to. */
  to?: string;
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
