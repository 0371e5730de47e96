import { useEffect, useState } from 'react';
import { mayLeave } from '../keep/leaving.ts';
import { useSession } from '../session.ts';

/** A corner file dropped anywhere on the page is opened. */
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
      const file = event.dataTransfer?.files[0];
      if (file && mayLeave()) void session.openFile(file);
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
  return over ? <div className="drop">Drop the corner file to open it</div> : null;
}
