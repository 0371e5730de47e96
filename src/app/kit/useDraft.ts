import { useState } from 'react';

/** The text of a field while it is edited. */
export interface Draft {
  /** The shown text. */
  text: string;
  /** Whether the text differs from the committed one. */
  isUncommitted: boolean;
  /** Reason why the text was rejected; undefined if it was not. */
  problem: string | undefined;
  type(text: string): void;
  /** Drops the draft; undefined if there is none. */
  revert: (() => void) | undefined;
  /** Commits the typed text, or another one. A rejected text stays in the field. */
  commit(text?: string): void;
}

/** `accept` takes a text that differs from the committed one, or returns why it cannot. */
export function useDraft(committed: string, accept: (text: string) => string | undefined): Draft {
  const [draft, setDraft] = useState<string>();
  const [problem, setProblem] = useState<string>();
  const show = (text: string | undefined, why: string | undefined) => {
    setDraft(text);
    setProblem(why);
  };
  return {
    text: draft ?? committed,
    isUncommitted: draft !== undefined && draft !== committed,
    problem,
    type: setDraft,
    revert: draft === undefined ? undefined : () => show(undefined, undefined),
    commit(text = draft) {
      if (text === undefined) return;
      const why = text.trim() === committed ? undefined : accept(text);
      show(why === undefined ? undefined : text, why);
    },
  };
}
