import { useEffect, useRef } from 'react';
import { useStart } from '../sheets/start/startStore.ts';
import { isUnsaved, useDocument } from '../state/documentStore.ts';
import { chooseFiles, isCancelled } from '../state/keep/files.ts';
import { useSaveState } from '../state/keep/saveState.ts';
import { saveFile } from '../state/keep/saving.ts';
import { confirmDiscard } from '../state/keep/unsavedChanges.ts';
import { useSession } from '../state/session.ts';
import { SaveDialog } from './SaveDialog.tsx';

/** Opens and saves corner files. Ctrl+S saves, Ctrl+O opens. */
export function FileTools() {
  const session = useSession();
  const unsaved = useDocument(isUnsaved);
  const fileName = useDocument((state) => state.fileName);
  const input = useRef<HTMLInputElement>(null);

  const open = async () => {
    if (!confirmDiscard()) return;
    if (!('showOpenFilePicker' in window)) return input.current?.click();
    try {
      await session.openFiles(await chooseFiles());
    } catch (error) {
      if (!isCancelled(error)) useSaveState.setState({ notSaved: (error as Error).message });
    }
  };

  const opening = useRef(open);
  opening.current = open;

  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
      const key = event.key.toLowerCase();
      if (key !== 's' && key !== 'o') return;
      event.preventDefault();
      if (key === 's') void saveFile(session, { elsewhere: event.shiftKey });
      else void opening.current();
    };
    window.addEventListener('keydown', onKey);
    return () => window.removeEventListener('keydown', onKey);
  }, [session]);

  return (
    <>
      <button
        type="button"
        aria-label="New corner"
        title="Create a corner from a few main dimensions"
        onClick={() => useStart.setState({ open: true })}
      >
        New<span className="roomy"> corner</span>
      </button>
      <button
        type="button"
        title="Ctrl+O; choose the corner file and the files beside it together"
        onClick={() => void open()}
      >
        Open
      </button>
      <input
        ref={input}
        type="file"
        hidden
        multiple
        aria-label="Corner file"
        onChange={(event) => {
          const chosen = [...(event.target.files ?? [])];
          // Allows the same file to be chosen again after a change on the disk.
          event.target.value = '';
          if (chosen.length > 0) void session.openFiles(chosen);
        }}
      />
      <button
        type="button"
        disabled={fileName === ''}
        title={`${unsaved ? 'Not saved: ' : ''}${fileName} (Ctrl+S; Ctrl+Shift+S saves to another place)`}
        onClick={() => void saveFile(session)}
      >
        {unsaved ? 'Save •' : 'Save'}
        {unsaved && <span className="unseen"> changes</span>}
      </button>
      <SaveDialog />
    </>
  );
}
