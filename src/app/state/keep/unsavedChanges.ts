import { isUnsaved, useDocument } from '../documentStore.ts';

/** Asks the user before another file is opened, if unsaved changes would be lost. Returns whether to go on. */
export function confirmDiscard(): boolean {
  const state = useDocument.getState();
  if (!isUnsaved(state)) return true;
  return window.confirm(
    `The changes to ${state.fileName} are not saved. Open another corner and discard them?`,
  );
}

/** Makes the browser ask before the page is closed with unsaved changes. */
export function warnBeforeClosing(): void {
  window.addEventListener('beforeunload', (event) => {
    if (isUnsaved(useDocument.getState())) event.preventDefault();
  });
}
