import { create } from 'zustand';

/** What is to be told of keeping: why the browser keeps no drafts, or why the file could not be saved. */
export const useKeeping = create<{ failure: string | undefined; notSaved: string | undefined }>(() => ({
  failure: undefined,
  notSaved: undefined,
}));
