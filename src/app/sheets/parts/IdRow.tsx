import { withId } from '../../../design/edit.ts';
import { TypedRow } from '../../kit/TypedField.tsx';
import { useDraft } from '../../kit/useDraft.ts';
import { currentSource, useDocument } from '../../state/documentStore.ts';
import { newProblem } from '../../state/partEdits.ts';
import { useSession } from '../../state/session.ts';
import { useSheet } from './sheetContext.ts';

/** The id of a part, by which the file and its pair rules refer to it. A rejected id stays in the field. */
export function IdRow({ at, id }: { at: number; id: string }) {
  const session = useSession();
  const { owner } = useSheet();
  const draft = useDraft(id, (text) => {
    const next = text.trim();
    const source = currentSource(useDocument.getState());
    const changed = withId(source, at, next);
    const why = newProblem(source, changed);
    if (why === undefined) void session.change(`${owner}: short name ${next}`, changed);
    return why;
  });
  return (
    <TypedRow
      label="Short name"
      title="The file and its pair rules refer to the part by this name: letters, digits, - and _, beginning with a letter."
      text={draft.text}
      problem={draft.problem}
      isUncommitted={draft.isUncommitted}
      onType={draft.type}
      onEnter={() => draft.commit()}
      onRevert={draft.revert}
      onBlur={() => draft.commit()}
    />
  );
}
