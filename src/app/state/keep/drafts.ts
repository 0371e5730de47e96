import { createStore, del, entries, get, set } from 'idb-keyval';
import { type Assets, NO_ASSETS } from '../../../design/assets.ts';
import { type History, isUnsaved, useDocument } from '../documentStore.ts';
import { openTabs, ownTab } from './tab.ts';

/** The open file of a tab with its history, stored in the browser so that a crash or a reload loses nothing. */
export interface Draft extends History {
  fileName: string;
  assets: Assets;
  /** Whether it has unsaved changes. */
  unsaved: boolean;
  /** Label and time of the current state. */
  label: string;
  at: Date;
}

/** A draft as it is stored: its assets, which no edit changes, are stored on their own. */
type StoredDraft = Omit<Draft, 'assets'>;

/** A draft in the older format, without a history. */
interface OldDraft extends Omit<StoredDraft, keyof History> {
  source: unknown;
  sound: unknown;
}

/** Delay before a change is stored, together with later changes. */
const STORE_DELAY_MS = 300;

const drafts = createStore('daylight-drafts', 'drafts');
/** The assets of each draft that has some. */
const draftAssets = createStore('daylight-draft-assets', 'assets');

/** Stores the open file as a draft after each change. Calls `onFailure` once if the browser cannot store it. */
export function keepDrafts(onFailure: (why: string) => void): void {
  let waiting = false;
  let failed = false;
  let storedAssets: Assets | undefined;
  const store = async () => {
    waiting = false;
    const state = useDocument.getState();
    const change = state.changes[state.now];
    if (change === undefined) return;
    const { fileName, assets, changes, now, saved, shown } = state;
    const { label, at } = change;
    const draft: StoredDraft = { fileName, changes, now, saved, shown, unsaved: isUnsaved(state), label, at };
    try {
      const tab = await ownTab();
      if (assets !== storedAssets) {
        await (assets.size > 0 ? set(tab, assets, draftAssets) : del(tab, draftAssets));
        storedAssets = assets;
      }
      await set(tab, draft, drafts);
    } catch (error) {
      if (!failed) onFailure(storageErrorText(error));
      failed = true;
    }
  };
  useDocument.subscribe((state, before) => {
    const isSame = state.changes === before.changes && state.now === before.now;
    if (isSame && state.saved === before.saved && state.shown === before.shown) return;
    if (!waiting) setTimeout(() => void store(), STORE_DELAY_MS);
    waiting = true;
  });
}

/** Why the browser stored nothing, as the end of a sentence. */
function storageErrorText(error: unknown): string {
  const { name, message } = error as Error;
  // TypeError: the browser has no such storage.
  if (name === 'TypeError' || name === 'SecurityError') return 'the browser gives this page no storage';
  return name === 'QuotaExceededError' ? "the browser's storage is full" : message;
}

/** The draft of this tab from before a reload or crash. */
export const ownDraft = async (): Promise<Draft | undefined> => {
  const tab = await ownTab();
  const kept = await get<StoredDraft | OldDraft>(tab, drafts);
  return kept && withAssets(tab, kept);
};

const withAssets = async (tab: string, kept: StoredDraft | OldDraft): Promise<Draft> => ({
  ...withHistory(kept),
  assets: (await get<Assets>(tab, draftAssets)) ?? NO_ASSETS,
});

/** The draft; one in the older format gets a history of its last valid state and its current state. */
export function withHistory(kept: StoredDraft | OldDraft): StoredDraft {
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

/** Drafts with unsaved changes from closed tabs, newest first. Deletes the drafts of closed tabs without unsaved changes. */
export async function orphanedDrafts(): Promise<{ tab: string; draft: Draft }[]> {
  const open = await openTabs();
  const left = (await entries<string, StoredDraft | OldDraft>(drafts)).filter(([tab]) => !open.has(tab));
  for (const [tab, { unsaved }] of left) if (!unsaved) await deleteDraft(tab);
  const orphaned = left
    .filter(([, { unsaved }]) => unsaved)
    .map(async ([tab, kept]) => ({ tab, draft: await withAssets(tab, kept) }));
  return (await Promise.all(orphaned)).sort(
    (one, other) => other.draft.at.getTime() - one.draft.at.getTime(),
  );
}

export async function deleteDraft(tab: string): Promise<void> {
  await del(tab, drafts);
  await del(tab, draftAssets);
}
