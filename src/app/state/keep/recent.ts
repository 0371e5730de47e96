import { createStore, get, update } from 'idb-keyval';
import type { Assets } from '../../../design/assets.ts';
import { currentSource, useDocument } from '../documentStore.ts';

/** A recently used corner, as last opened or saved. */
export interface Recent {
  fileName: string;
  name: string;
  text: string;
  /** Undefined in an older list. */
  assets?: Assets;
  at: Date;
}

const MAX_RECENT = 8;
const KEY = 'recent';
const recent = createStore('daylight-recent', 'recent');

export const recentCorners = async (): Promise<readonly Recent[]> => (await get<Recent[]>(KEY, recent)) ?? [];

/** Adds every file that is opened or saved from now on to the list. */
export function recordRecent(nameOf: (source: unknown) => string): void {
  useDocument.subscribe((state, before) => {
    if (state.saved === before.saved || state.saved === undefined) return;
    const source = currentSource(state);
    const one: Recent = {
      fileName: state.fileName,
      name: nameOf(source),
      text: JSON.stringify(source),
      assets: state.assets,
      at: new Date(),
    };
    const withOne = (all: readonly Recent[] = []) =>
      [one, ...all.filter(({ fileName }) => fileName !== one.fileName)].slice(0, MAX_RECENT);
    // The list is optional: without storage it stays empty. `update` may throw as well as reject.
    const store = async () => update<readonly Recent[]>(KEY, withOne, recent);
    store().catch(() => {});
  });
}
