import { useEffect } from 'react';
import { Dialog } from '../kit/Dialog.tsx';
import { undefinedOnError } from '../state/keep/undefinedOnError.ts';
import { useView } from '../state/viewStore.ts';

const READ_KEY = 'daylight.cautions-read';

/** The cautions. Shown at the first run and on request. */
export function CautionsDialog() {
  const open = useView((view) => view.cautionsOpen);
  useEffect(() => {
    // Without storage they are shown at each start.
    const wasRead = undefinedOnError(() => localStorage.getItem(READ_KEY)) === 'yes';
    if (!wasRead) useView.setState({ cautionsOpen: true });
  }, []);
  if (!open) return null;
  const close = () => {
    undefinedOnError(() => localStorage.setItem(READ_KEY, 'yes'));
    useView.setState({ cautionsOpen: false });
  };
  return (
    <Dialog title="Before you cut metal" closeLabel="I have read this" onClose={close}>
      <p>
        <strong>Daylight checks geometry only.</strong> It shows what touches and how much clearance is left.
        It does not check strength, fatigue, welds, brakes or steering safety.
      </p>
      <ul>
        <li>If a wheel, brake, steering or suspension part fails, people die.</li>
        <li>
          It uses the dimensions that you give it. Mock up the real parts, take the springs out, and cycle the
          assembly by hand through all travel and lock before the vehicle runs.
        </li>
        <li>Your local vehicle code and your scrutineers’ rules come before any number here.</li>
        <li>
          If the law or the risk requires it, have a licensed engineer or certifier approve the design, and a
          certified welder do the welding.
        </li>
      </ul>
    </Dialog>
  );
}
