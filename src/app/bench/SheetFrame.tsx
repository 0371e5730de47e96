import type { ReactNode } from 'react';

interface SheetFrameProps {
  title: string;
  tools?: ReactNode;
  onClose(): void;
  children: ReactNode;
}

/** A sheet under the list of parts. */
export function SheetFrame({ title, tools, onClose, children }: SheetFrameProps) {
  return (
    <section className="bench-sheet" aria-label={`${title}, bench sheet`}>
      <header className="sheet-head">
        <h2>{title}</h2>
        {tools}
        <button type="button" className="quiet" aria-label="Close the sheet" onClick={onClose}>
          Close
        </button>
      </header>
      <div className="bench-rows">{children}</div>
    </section>
  );
}
