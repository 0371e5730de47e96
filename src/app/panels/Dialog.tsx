import { type ReactNode, useEffect, useId, useRef } from 'react';

interface DialogProps {
  title: string;
  closeLabel: string;
  onClose(): void;
  /** Beside the button that closes it. */
  actions?: ReactNode;
  /** For a page that is larger than a notice. */
  className?: string;
  children: ReactNode;
}

/** A page over the workbench; Escape or its button closes it. */
export function Dialog({ title, closeLabel, onClose, actions, className, children }: DialogProps) {
  const dialog = useRef<HTMLDialogElement>(null);
  const heading = useId();
  useEffect(() => {
    dialog.current?.showModal();
  }, []);
  return (
    <dialog ref={dialog} className={className} aria-labelledby={heading} onClose={onClose}>
      <h2 id={heading}>{title}</h2>
      <div className="dialog-body">{children}</div>
      <footer>
        <button
          type="button"
          className={actions === undefined ? 'primary' : undefined}
          onClick={() => dialog.current?.close()}
        >
          {closeLabel}
        </button>
        {actions}
      </footer>
    </dialog>
  );
}
