import { type ReactNode, useRef } from 'react';

interface StudyButtonsProps {
  isRunning: boolean;
  onCancel(): void;
  /** The buttons that start the study. */
  children: ReactNode;
}

/** The buttons of a study, with Cancel while it runs. */
export function StudyButtons({ isRunning, onCancel, children }: StudyButtonsProps) {
  const row = useRef<HTMLDivElement>(null);
  return (
    <div ref={row} className="vary-buttons">
      {children}
      {isRunning && (
        <button
          type="button"
          onClick={() => {
            onCancel();
            // The cancel button, which has the focus, is removed.
            row.current?.querySelector<HTMLButtonElement>('button:enabled')?.focus();
          }}
        >
          Cancel
        </button>
      )}
    </div>
  );
}
