import { createStore, del, entries, get, set } from 'idb-keyval';
import { type History, isUnsaved, useDocument } from '../stores/documentStore.ts';
import { openTabs, ownTab } from './tab.ts';

/** The file that a tab has open, with its history, kept in the browser so that a crash or a reload loses nothing. */
export interface Draft extends History {
  fileName: string;
  /** Whether it holds changes that were never saved. */
  unsaved: boolean;
  /** Label and time of the state in hand. */
  label: string;
  at: Date;
}

/** A draft as it was kept before drafts held a history. */
interface OldDraft extends Omit<Draft, keyof History> {
  source: unknown;
  sound: unknown;
}

/** A change is kept this long after it was made, with all that follow it until then. */
const KEEP_MS = 300;

const drafts = createStore('daylight-drafts', 'drafts');

/** Keeps the file in hand from now on. `onFailure` is told, once, where the browser keeps nothing. */
export function keepDrafts(onFailure: (why: string) => void): void {
  let waiting = false;
  let failed = false;
  const keep = async () => {
    waiting = false;
    const state = useDocument.getState();
    const change = state.changes[state.now];
    if (change === undefined) return;
    const { fileName, changes, now, saved, shown } = state;
    const { label, at } = change;
    const draft: Draft = { fileName, changes, now, saved, shown, unsaved: isUnsaved(state), label, at };
    try {
      await set(await ownTab(), draft, drafts);
    } catch (error) {
      if (!failed) onFailure(whyNotKept(error));
      failed = true;
    }
  };
  useDocument.subscribe((state, before) => {
    const isSame = state.changes === before.changes && state.now === before.now;
    if (isSame && state.saved === before.saved && state.shown === before.shown) return;
    if (!waiting) setTimeout(() => void keep(), KEEP_MS);
    waiting = true;
  });
}

/** Why the browser kept nothing, as the end of a sentence. */
export function whyNotKept(error: unknown): string {
  const { name, message } = error as Error;
  // A TypeError: the storage is not there at all.
  if (name === 'TypeError' || name === 'SecurityError') return 'the browser gives this page no storage';
  return name === 'QuotaExceededError' ? "the browser's storage is full" : message;
}

/** What this tab had in hand before it was reloaded or died. */
export const ownDraft = async (): Promise<Draft | undefined> => {
  const kept = await get<Draft | OldDraft>(await ownTab(), drafts);
  return kept && withHistory(kept);
};

/** A draft with a history, made of its last valid state and the one in hand where it was kept without one. */
export function withHistory(kept: Draft | OldDraft): Draft {
  if ('changes' in kept) return kept;
  const { source, sound = source, ...rest } = kept;
  const { fileName, label, at, unsaved } = rest;
  const last = { label, source, at, merge: undefined };
  const isOne = sound === source || JSON.stringify(sound) === JSON.stringify(source);
  const first = { label: `Opened ${fileName}`, source: sound, at, merge: undefined };
  const changes = isOne ? [last] : [first, last];
  return {
    ...rest,
    changes,
    now: changes.length - 1,
    saved: unsaved ? undefined : source,
    shown: changes[0],
  };
}

/** Drafts with unsaved changes of tabs that are no more, by tab; the newest first. Others of such tabs are thrown away. */
export async function leftDrafts(): Promise<{ tab: string; draft: Draft }[]> {
  const open = await openTabs();
  const left = (await entries<string, Draft | OldDraft>(drafts)).filter(([tab]) => !open.has(tab));
  for (const [tab, { unsaved }] of left) if (!unsaved) await del(tab, drafts);
  return left
    .filter(([, { unsaved }]) => unsaved)
    .map(([tab, kept]) => ({ tab, draft: withHistory(kept) }))
    .sort((one, other) => other.draft.at.getTime() - one.draft.at.getTime());
}

export const forgetDraft = (tab: string): Promise<void> => del(tab, drafts);
