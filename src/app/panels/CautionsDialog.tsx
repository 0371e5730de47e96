import { useEffect } from 'react';
import { orNothing } from '../keep/orNothing.ts';
import { useView } from '../stores/viewStore.ts';
import { Dialog } from './Dialog.tsx';

const READ_KEY = 'daylight.cautions-read';

/** Shown at the first run and whenever asked for. */
export function CautionsDialog() {
  const open = useView((view) => view.cautionsOpen);
  useEffect(() => {
    // Where the browser keeps nothing, they are shown at each start.
    const wasRead = orNothing(() => localStorage.getItem(READ_KEY)) === 'yes';
    if (!wasRead) useView.setState({ cautionsOpen: true });
  }, []);
  if (!open) return null;
  const close = () => {
    orNothing(() => localStorage.setItem(READ_KEY, 'yes'));
    useView.setState({ cautionsOpen: false });
  };
  return (
    <Dialog title="Before you cut metal" closeLabel="I have read this" onClose={close}>
      <p>
        <strong>Daylight looks at shapes alone.</strong> It tells what touches and how much room is left. It
        knows nothing of strength, fatigue, welds, or whether brakes and steering are safe.
      </p>
      <ul>
        <li>When a wheel, brake, steering or suspension part fails, people die.</li>
        <li>
          It works from the dimensions you give it. Mock up the real parts, take the springs out, and cycle
          the assembly by hand through all its travel at every lock before it runs.
        </li>
        <li>The vehicle code where you live and your scrutineers’ rules come before any number here.</li>
        <li>
          Where the law or the stakes ask for it, have a licensed engineer or certifier sign the design off
          and a qualified welder do the welding.
        </li>
      </ul>
    </Dialog>
  );
}
