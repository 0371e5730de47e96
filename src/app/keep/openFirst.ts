import { valueAt } from '../../design/path.ts';
import type { Demo } from '../demos.ts';
import type { Session } from '../session.ts';
import { type Draft, keepDrafts, ownDraft } from './drafts.ts';
import { useKeeping } from './keepingStore.ts';
import { askBeforeClosing } from './leaving.ts';
import { keepLook, type Look, lookAt } from './look.ts';
import { keepOffline } from './offline.ts';
import { noteRecent } from './recent.ts';
import { wasHereBefore } from './tab.ts';

/**
 * Opens a draft with its history. Where the state in hand has wrong values, it is open for repair beside the last state
 * that can be shown. Its changes are not saved yet if they were not when it was left.
 */
export async function openDraft(session: Session, draft: Draft, look?: Look): Promise<void> {
  const { fileName, changes, now } = draft;
  await session.open(fileName, JSON.stringify(changes[now].source), { history: draft, look });
}

/**
 * Opens what this tab had in hand before it was reloaded, else the first example; and keeps from then on what is in hand,
 * so that the next reload finds it.
 */
export async function openFirst(session: Session, demos: readonly Demo[]): Promise<void> {
  keepLook();
  keepDrafts((why) => useKeeping.setState({ failure: why }));
  noteRecent((source) => String(valueAt(source, ['name']) ?? ''));
  askBeforeClosing();
  keepOffline();
  // A tab that is new has nothing to wait for.
  const draft = wasHereBefore() ? await ownDraft().catch(() => undefined) : undefined;
  const [first] = demos;
  if (draft !== undefined) await openDraft(session, draft, lookAt(draft.fileName));
  else if (first !== undefined) await session.open(first.fileName, first.text);
}
