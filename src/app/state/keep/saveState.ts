import { create } from 'zustand';

interface SaveState {
  /** Why the browser stores no drafts. */
  failure: string | undefined;
  /** Why the file could not be saved. */
  notSaved: string | undefined;
  /** Whether the dialog about saving wrong values is open. */
  saveDialogOpen: boolean;
  /** Files of the last saved copy with wrong values. */
  copySaved: readonly string[] | undefined;
  /** Files of the last save that wrote more than the corner file. */
  filesSaved: readonly string[] | undefined;
}

/** State of drafts and saving. */
export const useSaveState = create<SaveState>(() => ({
  failure: undefined,
  notSaved: undefined,
  saveDialogOpen: false,
  copySaved: undefined,
  filesSaved: undefined,
}));
