import { type ReactNode, useEffect, useId, useRef } from 'react';

interface DialogProps {
  title: string;
  closeLabel: string;
  onClose(): void;
  children: ReactNode;
}

/** A page over the workbench; Escape or its button closes it. */
export function Dialog({ title, closeLabel, onClose, children }: DialogProps) {
  const dialog = useRef<HTMLDialogElement>(null);
  const heading = useId();
  useEffect(() => {
    dialog.current?.showModal();
  }, []);
  return (
    <dialog ref={dialog} aria-labelledby={heading} onClose={onClose}>
      <h2 id={heading}>{title}</h2>
      <div className="dialog-body">{children}</div>
      <footer>
        <button type="button" className="primary" onClick={() => dialog.current?.close()}>
          {closeLabel}
        </button>
      </footer>
    </dialog>
  );
}
