import { isUnsaved, useDocument } from '../stores/documentStore.ts';

/** Asks before the file in hand is left for another, where changes of it would be lost. */
export function mayLeave(): boolean {
  const state = useDocument.getState();
  if (!isUnsaved(state)) return true;
  return window.confirm(`The changes to ${state.fileName} are not saved. Open another corner and lose them?`);
}

/** Has the browser ask before the page is closed with changes that are not saved. */
export function askBeforeClosing(): void {
  window.addEventListener('beforeunload', (event) => {
    if (isUnsaved(useDocument.getState())) event.preventDefault();
  });
}
