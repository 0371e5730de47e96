import { useEffect, useRef } from 'react';
import { useSession } from '../session.ts';
import { useStart } from '../start/startStore.ts';
import { isUnsaved, useDocument } from '../stores/documentStore.ts';
import { chooseFile, isCalledOff } from './files.ts';
import { useKeeping } from './keepingStore.ts';
import { mayLeave } from './leaving.ts';
import { SaveDialog } from './SaveDialog.tsx';
import { saveInHand } from './saving.ts';

/** Opens and saves corner files. Ctrl+S saves, Ctrl+O opens. */
export function FileTools() {
  const session = useSession();
  const unsaved = useDocument(isUnsaved);
  const fileName = useDocument((state) => state.fileName);
  const input = useRef<HTMLInputElement>(null);

  const open = async () => {
    if (!mayLeave()) return;
    if (!('showOpenFilePicker' in window)) return input.current?.click();
    try {
      const { file, handle } = await chooseFile();
      await session.openFile(file, handle);
    } catch (error) {
      if (!isCalledOff(error)) useKeeping.setState({ notSaved: (error as Error).message });
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
      if (key === 's') void saveInHand(session, { elsewhere: event.shiftKey });
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
        title="Describe a new corner by the few dimensions that matter first"
        onClick={() => useStart.setState({ open: true })}
      >
        New<span className="roomy"> corner</span>
      </button>
      <button type="button" title="Ctrl+O" onClick={() => void open()}>
        Open
      </button>
      <input
        ref={input}
        type="file"
        hidden
        accept=".json,application/json"
        aria-label="Corner file"
        onChange={(event) => {
          const chosen = event.target.files?.[0];
          // The same file may be chosen again after it was changed.
          event.target.value = '';
          if (chosen) void session.openFile(chosen);
        }}
      />
      <button
        type="button"
        disabled={fileName === ''}
        title={`${unsaved ? 'Not saved: ' : ''}${fileName} (Ctrl+S; with Shift to another place)`}
        onClick={() => void saveInHand(session)}
      >
        {unsaved ? 'Save •' : 'Save'}
        {unsaved && <span className="unseen"> changes</span>}
      </button>
      <SaveDialog />
    </>
  );
}
