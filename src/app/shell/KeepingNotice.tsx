import { useEffect, useState } from 'react';
import { useDocument } from '../state/documentStore.ts';
import { type Draft, deleteDraft, orphanedDrafts } from '../state/keep/drafts.ts';
import { openDraft } from '../state/keep/openFirst.ts';
import { useSaveState } from '../state/keep/saveState.ts';
import { confirmDiscard } from '../state/keep/unsavedChanges.ts';
import { useSession } from '../state/session.ts';

/** Notices about unsaved changes of a closed tab, drafts that cannot be kept, and failed saves. */
export function KeepingNotice() {
  const session = useSession();
  const { failure, notSaved, copySaved, filesSaved } = useSaveState();
  const fileName = useDocument((state) => state.fileName);
  const [left, setLeft] = useState<readonly { tab: string; draft: Draft }[]>([]);
  useEffect(() => {
    orphanedDrafts().then(setLeft, () => {});
  }, []);
  const without = (tab: string) => {
    setLeft((all) => all.filter((one) => one.tab !== tab));
    void deleteDraft(tab);
  };
  const [first] = left;
  if ([first, failure, notSaved, copySaved, filesSaved].every((one) => one === undefined)) return null;
  return (
    <section className="keeping" aria-label="Drafts and saving" role="status">
      {notSaved !== undefined && (
        <p className="warning">
          Not saved: {notSaved}
          <button
            type="button"
            className="quiet"
            onClick={() => useSaveState.setState({ notSaved: undefined })}
          >
            Close
          </button>
        </p>
      )}
      {copySaved !== undefined && (
        <p>
          Saved with its problems as {copySaved.join(', ')}. {fileName} is unchanged.
          <button
            type="button"
            className="quiet"
            onClick={() => useSaveState.setState({ copySaved: undefined })}
          >
            Close
          </button>
        </p>
      )}
      {filesSaved !== undefined && (
        <p>
          Saved: {filesSaved.join(', ')}.
          <button
            type="button"
            className="quiet"
            onClick={() => useSaveState.setState({ filesSaved: undefined })}
          >
            Close
          </button>
        </p>
      )}
      {failure !== undefined && (
        <p className="warning">
          No drafts are kept: {failure}. Save often. A crash or a reload loses changes that are not saved.
          <button
            type="button"
            className="quiet"
            onClick={() => useSaveState.setState({ failure: undefined })}
          >
            Close
          </button>
        </p>
      )}
      {first !== undefined && (
        <p>
          A closed tab left unsaved changes to {first.draft.fileName}, the last at{' '}
          {first.draft.at.toLocaleString()}: {first.draft.label}.
          <button
            type="button"
            onClick={async () => {
              if (!confirmDiscard()) return;
              await openDraft(session, first.draft);
              // If another file superseded it, the draft is kept.
              if (useDocument.getState().changes === first.draft.changes) without(first.tab);
            }}
          >
            Open changes
          </button>
          <button type="button" className="quiet" onClick={() => without(first.tab)}>
            Discard
          </button>
        </p>
      )}
    </section>
  );
}
