import { useEffect, useState } from 'react';
import { useSession } from '../session.ts';
import { useDocument } from '../stores/documentStore.ts';
import { type Draft, forgetDraft, leftDrafts } from './drafts.ts';
import { useKeeping } from './keepingStore.ts';
import { mayLeave } from './leaving.ts';
import { openDraft } from './openFirst.ts';

/** Tells of changes that a closed tab left unsaved, and of what could not be kept or saved. */
export function KeepingNotice() {
  const session = useSession();
  const { failure, notSaved, copySaved } = useKeeping();
  const fileName = useDocument((state) => state.fileName);
  const [left, setLeft] = useState<readonly { tab: string; draft: Draft }[]>([]);
  useEffect(() => {
    leftDrafts().then(setLeft, () => {});
  }, []);
  const without = (tab: string) => {
    setLeft((all) => all.filter((one) => one.tab !== tab));
    void forgetDraft(tab);
  };
  const [first] = left;
  if ([first, failure, notSaved, copySaved].every((one) => one === undefined)) return null;
  return (
    <section className="keeping" aria-label="Kept changes" role="status">
      {notSaved !== undefined && (
        <p className="warning">
          Not saved: {notSaved}
          <button
            type="button"
            className="quiet"
            onClick={() => useKeeping.setState({ notSaved: undefined })}
          >
            Close
          </button>
        </p>
      )}
      {copySaved !== undefined && (
        <p>
          Saved with its problems as {copySaved}. {fileName} is as it was.
          <button
            type="button"
            className="quiet"
            onClick={() => useKeeping.setState({ copySaved: undefined })}
          >
            Close
          </button>
        </p>
      )}
      {failure !== undefined && (
        <p className="warning">
          No drafts are kept: {failure}. Save often. A crash or a reload loses changes that are not saved.
          <button type="button" className="quiet" onClick={() => useKeeping.setState({ failure: undefined })}>
            Close
          </button>
        </p>
      )}
      {first !== undefined && (
        <p>
          A tab that was closed left changes to {first.draft.fileName} unsaved, the last at{' '}
          {first.draft.at.toLocaleString()}: {first.draft.label}.
          <button
            type="button"
            onClick={async () => {
              if (!mayLeave()) return;
              await openDraft(session, first.draft);
              // Superseded by another file, it is still wanted.
              if (useDocument.getState().changes === first.draft.changes) without(first.tab);
            }}
          >
            Open them
          </button>
          <button type="button" className="quiet" onClick={() => without(first.tab)}>
            Throw away
          </button>
        </p>
      )}
    </section>
  );
}
