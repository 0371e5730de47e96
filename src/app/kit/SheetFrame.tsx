import { type ReactNode, useEffect, useRef } from 'react';
import { FieldHelp } from './FieldHelp.tsx';
import { useFieldHelp } from './useFieldHelp.ts';

interface SheetFrameProps {
  title: string;
  tools?: ReactNode;
  /** Makes the sheet wider than the column if there is room. */
  wide?: boolean;
  onClose(): void;
  children: ReactNode;
}

/** The element that opened the sheet: the row of the part, or the button of the sheet. */
const openerOf = () =>
  document.querySelector<HTMLElement>(
    '.part[data-chosen="true"] .part-name, .bench-tools [aria-pressed="true"]',
  );

/** A sheet in place of the parts list. The focus moves to it when it opens, and back when it closes. */
export function SheetFrame({ title, tools, wide = false, onClose, children }: SheetFrameProps) {
  const back = useRef<HTMLButtonElement>(null);
  useEffect(() => {
    // The list is hidden now, so an element in it loses the focus.
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
