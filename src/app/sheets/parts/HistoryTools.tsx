import { useEffect } from 'react';
import { Menu } from '../../kit/Menu.tsx';
import { useDocument } from '../../state/documentStore.ts';
import { historyKey } from '../../state/historyKey.ts';
import { useSession } from '../../state/session.ts';

/** Undo, redo, and the list of all changes. */
export function HistoryTools() {
  const session = useSession();
  const { changes, now } = useDocument();
  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      const action = historyKey(event);
      if (action === undefined || isTypedIn(event.target)) return;
      event.preventDefault();
      void session[action]();
    };
    window.addEventListener('keydown', onKey);
    return () => window.removeEventListener('keydown', onKey);
  }, [session]);
  const undone = now > 0 ? changes[now].label : undefined;
  const redone = changes[now + 1]?.label;
  return (
    <div className="history">
      <button
        type="button"
        disabled={undone === undefined}
        aria-label={undone === undefined ? 'Undo' : `Undo ${undone}`}
        title={undone === undefined ? 'Nothing to undo' : `Undo ${undone} (Ctrl+Z)`}
        onClick={() => void session.undo()}
      >
        <Arrow />
      </button>
      <button
        type="button"
        disabled={redone === undefined}
        aria-label={redone === undefined ? 'Redo' : `Redo ${redone}`}
        title={redone === undefined ? 'Nothing to redo' : `Redo ${redone} (Ctrl+Shift+Z)`}
        onClick={() => void session.redo()}
      >
        <Arrow forward />
      </button>
      <Menu
        label={
          <>
            <span className="wide">Changes{now > 0 && ` ${now}`}</span>
            <svg
              className="narrow"
              width="14"
              height="14"
              viewBox="0 0 14 14"
              role="img"
              aria-label="Changes"
            >
              <path d="M1 3h12M1 7h12M1 11h8" />
            </svg>
          </>
        }
        title="All changes since the file was opened"
        disabled={changes.length === 0}
      >
        {() => (
          <ol aria-label="Changes, the newest first">
            {changes
              .map(({ label, at }, index) => (
                <li key={`${at.getTime()} ${label}`}>
                  <button
                    type="button"
                    aria-current={index === now ? 'step' : undefined}
                    data-undone={index > now}
                    onClick={() => void session.goTo(index)}
                  >
                    <span>{label}</span>
                    <span className="soft">
                      {index === now
                        ? 'current'
                        : index > now
                          ? 'undone'
                          : at.toLocaleTimeString([], { hour: '2-digit', minute: '2-digit' })}
                    </span>
                  </button>
                </li>
              ))
              .reverse()}
          </ol>
        )}
      </Menu>
    </div>
  );
}

/** Whether the element has text that is not committed; it handles the keys itself. */
const isTypedIn = (target: EventTarget | null): boolean =>
  (target instanceof HTMLInputElement || target instanceof HTMLTextAreaElement) &&
  target.dataset.uncommitted === 'true';

function Arrow({ forward = false }: { forward?: boolean }) {
  return (
    <svg
      width="14"
      height="14"
      viewBox="0 0 14 14"
      aria-hidden="true"
      transform={forward ? 'scale(-1 1)' : undefined}
    >
      <path d="M5 2 2 5l3 3M2 5h6.500a3.500 3.500 0 0 1 0 7H5" />
    </svg>
  );
}
