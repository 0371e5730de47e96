import { useId, useState } from 'react';
import { withId } from '../../design/edit.ts';
import { useSession } from '../session.ts';
import { sourceInHand, useDocument } from '../stores/documentStore.ts';
import { objection } from './partEdits.ts';
import { useSheet } from './sheetContext.ts';

/** The name by which the file and its pair rules know a part. A name that cannot be is kept in the field and not taken. */
export function IdRow({ at, id }: { at: number; id: string }) {
  const session = useSession();
  const { owner } = useSheet();
  const [draft, setDraft] = useState<string>();
  const [refused, setRefused] = useState<string>();
  const input = useId();
  const text = draft ?? id;
  const commit = () => {
    const wanted = text.trim();
    if (wanted === id) {
      setDraft(undefined);
      setRefused(undefined);
      return;
    }
    const source = sourceInHand(useDocument.getState());
    const changed = withId(source, at, wanted);
    const why = objection(source, changed);
    setRefused(why);
    if (why !== undefined) return;
    setDraft(undefined);
    void session.change(`${owner}: short name ${wanted}`, changed);
  };
  return (
    <div
      className="bench-row"
      title="By this the file and its pair rules know the part: letters, digits, - and _, beginning with a letter."
    >
      <label htmlFor={input}>Short name</label>
      <input
        id={input}
        type="text"
        value={text}
        aria-invalid={refused !== undefined}
        aria-describedby={refused === undefined ? undefined : `${input}-problem`}
        data-uncommitted={text !== id}
        autoComplete="off"
        spellCheck={false}
        onChange={(event) => setDraft(event.target.value)}
        onKeyDown={(event) => {
          if (event.key === 'Enter') commit();
          if (event.key === 'Escape') {
            setDraft(undefined);
            setRefused(undefined);
          }
        }}
        onBlur={commit}
      />
      {refused !== undefined && (
        <p id={`${input}-problem`} className="bench-problem" role="alert">
          {refused}
        </p>
      )}
    </div>
  );
}
