import { type ReactNode, useEffect, useId, useRef } from 'react';

interface DialogProps {
  title: string;
  closeLabel: string;
  onClose(): void;
  /** Buttons beside the close button. */
  actions?: ReactNode;
  className?: string;
  children: ReactNode;
}

/** A modal dialog; Escape or its close button closes it. */
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
