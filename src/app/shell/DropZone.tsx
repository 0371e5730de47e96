import { useEffect, useState } from 'react';
import { confirmDiscard } from '../state/keep/unsavedChanges.ts';
import { useSession } from '../state/session.ts';

/** Opens a corner file, and the files beside it, dropped anywhere on the page. */
export function DropZone() {
  const session = useSession();
  const [over, setOver] = useState(false);
  useEffect(() => {
    const holdsFile = (event: DragEvent) => event.dataTransfer?.types.includes('Files') ?? false;
    const onOver = (event: DragEvent) => {
      if (!holdsFile(event)) return;
      event.preventDefault();
      setOver(true);
    };
    const onLeave = (event: DragEvent) => {
      if (event.relatedTarget === null) setOver(false);
    };
    const onDrop = (event: DragEvent) => {
      if (!holdsFile(event)) return;
      event.preventDefault();
      setOver(false);
      const files = [...(event.dataTransfer?.files ?? [])];
      if (files.length > 0 && confirmDiscard()) void session.openFiles(files);
    };
    window.addEventListener('dragover', onOver);
    window.addEventListener('dragleave', onLeave);
    window.addEventListener('drop', onDrop);
    return () => {
      window.removeEventListener('dragover', onOver);
      window.removeEventListener('dragleave', onLeave);
      window.removeEventListener('drop', onDrop);
    };
  }, [session]);
  return over ? <div className="drop">Drop the corner file to open it, with the files beside it.</div> : null;
}
