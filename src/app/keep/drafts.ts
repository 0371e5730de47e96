import { createStore, del, entries, get, set } from 'idb-keyval';
import { useCorner } from '../stores/cornerStore.ts';
import { isUnsaved, sourceInHand, useDocument } from '../stores/documentStore.ts';
import { openTabs, ownTab } from './tab.ts';

/** The file that a tab has in hand, kept in the browser so that a crash or a reload loses nothing. */
export interface Draft {
  fileName: string;
  source: unknown;
  /** The last state that was sound: what is shown while the one in hand is not. */
  sound: unknown;
  /** Whether it holds changes that were never saved. */
  unsaved: boolean;
  /** What was changed last, in words. */
  label: string;
  at: Date;
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
    const { label, at } = change;
    const source = sourceInHand(state);
    const draft: Draft = {
      fileName: state.fileName,
      source,
      sound: state.problems.length === 0 ? source : useCorner.getState().corner?.design.source,
      unsaved: isUnsaved(state),
      label,
      at,
    };
    try {
      await set(await ownTab(), draft, drafts);
    } catch (error) {
      if (!failed) onFailure((error as Error).message);
      failed = true;
    }
  };
  useDocument.subscribe((state, before) => {
    const isSame = sourceInHand(state) === sourceInHand(before) && state.saved === before.saved;
    if (isSame && state.problems === before.problems) return;
    if (!waiting) setTimeout(() => void keep(), KEEP_MS);
    waiting = true;
  });
}

/** What this tab had in hand before it was reloaded or died. */
export const ownDraft = async (): Promise<Draft | undefined> => get<Draft>(await ownTab(), drafts);

/** Drafts with unsaved changes of tabs that are no more, by tab; the newest first. Others of such tabs are thrown away. */
export async function leftDrafts(): Promise<{ tab: string; draft: Draft }[]> {
  const open = await openTabs();
  const left = (await entries<string, Draft>(drafts)).filter(([tab]) => !open.has(tab));
  for (const [tab, { unsaved }] of left) if (!unsaved) await del(tab, drafts);
  return left
    .filter(([, { unsaved }]) => unsaved)
    .map(([tab, draft]) => ({ tab, draft }))
    .sort((one, other) => other.draft.at.getTime() - one.draft.at.getTime());
}

export const forgetDraft = (tab: string): Promise<void> => del(tab, drafts);
