import { type ReactNode, useEffect, useRef } from 'react';
import { FieldHelp } from './FieldHelp.tsx';
import { useFieldHelp } from './useFieldHelp.ts';

interface SheetFrameProps {
  title: string;
  tools?: ReactNode;
  /** It takes more than the width of the column where there is room. */
  wide?: boolean;
  onClose(): void;
  children: ReactNode;
}

/** What opened the sheet: the row of the part, or the button of the sheet. */
const openerOf = () =>
  document.querySelector<HTMLElement>(
    '.part[data-chosen="true"] .part-name, .bench-tools [aria-pressed="true"]',
  );

/** A sheet in place of the list of parts. The keyboard goes into it and back with what is shown. */
export function SheetFrame({ title, tools, wide = false, onClose, children }: SheetFrameProps) {
  const back = useRef<HTMLButtonElement>(null);
  useEffect(() => {
    // The list is hidden by now, and the focus would be lost with it.
    if (document.activeElement?.closest('.parts-list')) back.current?.focus();
  }, []);
  const { help, watch } = useFieldHelp();
  const close = () => {
    const opener = openerOf();
    onClose();
    requestAnimationFrame(() => opener?.focus());
  };
  return (
    <section className="bench-sheet" data-wide={wide} aria-label={`${title}, bench sheet`}>
      <header className="sheet-head">
        <button ref={back} type="button" className="quiet" title="Close the sheet" onClick={close}>
          <span aria-hidden="true">‹ </span>Parts list
        </button>
        <h2>{title}</h2>
        {tools !== undefined && <span className="sheet-tools">{tools}</span>}
      </header>
      <div className="bench-rows" {...watch}>
        {children}
      </div>
      <FieldHelp help={help} />
    </section>
  );
}
