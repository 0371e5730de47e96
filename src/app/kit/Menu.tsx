import { type ReactNode, useRef, useState } from 'react';

interface MenuProps {
  label: ReactNode;
  title?: string;
  disabled?: boolean;
  /** Rendered only while the menu is open; `close` closes it. */
  children(close: () => void): ReactNode;
}

/** A button with a list under it. Escape, or moving the focus elsewhere, closes it. */
export function Menu({ label, title, disabled, children }: MenuProps) {
  const [open, setOpen] = useState(false);
  const root = useRef<HTMLFieldSetElement>(null);
  const close = () => {
    setOpen(false);
    root.current?.querySelector('button')?.focus();
  };
  return (
    <fieldset
      ref={root}
      className="menu"
      onKeyDown={(event) => {
        if (event.key !== 'Escape' || !open) return;
        event.stopPropagation();
        close();
      }}
      onBlur={(event) => {
        if (!root.current?.contains(event.relatedTarget)) setOpen(false);
      }}
    >
      <button
        type="button"
        title={title}
        disabled={disabled}
        aria-expanded={open}
        onClick={() => setOpen(!open)}
      >
        {label}
      </button>
      {open && <div className="menu-list">{children(close)}</div>}
    </fieldset>
  );
}
