import { create } from 'zustand';

interface Keeping {
  /** Why the browser keeps no drafts. */
  failure: string | undefined;
  /** Why the file could not be saved. */
  notSaved: string | undefined;
  /** Whether the dialog about saving wrong values is open. */
  asksToSave: boolean;
  /** Name of the copy with wrong values that was saved last. */
  copySaved: string | undefined;
}

/** What the screens say of keeping and saving. */
export const useKeeping = create<Keeping>(() => ({
  failure: undefined,
  notSaved: undefined,
  asksToSave: false,
  copySaved: undefined,
}));
