import { valueAt } from '../../../design/path.ts';
import type { Demo } from '../demos.ts';
import type { Session } from '../session.ts';
import { type Draft, keepDrafts, ownDraft } from './drafts.ts';
import { keepOffline } from './offline.ts';
import { recordRecent } from './recent.ts';
import { useSaveState } from './saveState.ts';
import { wasReloaded } from './tab.ts';
import { warnBeforeClosing } from './unsavedChanges.ts';
import { persistViewSettings, type SavedView, savedViewOf } from './viewSettings.ts';

/**
 * Opens a draft with its history. If its current state has wrong values, it is opened for repair, and the last state that
 * can be built is shown. Unsaved changes stay unsaved.
 */
export async function openDraft(session: Session, draft: Draft, view?: SavedView): Promise<void> {
  const { fileName, assets, changes, now } = draft;
  await session.open(fileName, JSON.stringify(changes[now].source), { assets, history: draft, view });
}

/**
 * Opens the file that this tab had open before a reload, else the first example. From then on stores the open file, so that
 * the next reload finds it.
 */
export async function openFirst(session: Session, demos: readonly Demo[]): Promise<void> {
  persistViewSettings();
  keepDrafts((why) => useSaveState.setState({ failure: why }));
  recordRecent((source) => String(valueAt(source, ['name']) ?? ''));
  warnBeforeClosing();
  keepOffline();
  // A new tab has no draft to wait for.
  const draft = wasReloaded() ? await ownDraft().catch(() => undefined) : undefined;
  const [first] = demos;
  if (draft !== undefined) await openDraft(session, draft, savedViewOf(draft.fileName));
  else if (first !== undefined) await session.open(first.fileName, first.text);
}
