import { createStore, get, update } from 'idb-keyval';
import { sourceInHand, useDocument } from '../stores/documentStore.ts';

/** A corner that was open lately, as it was opened or saved last. */
export interface Recent {
  fileName: string;
  name: string;
  text: string;
  at: Date;
}

const MOST = 8;
const KEY = 'recent';
const recent = createStore('daylight-recent', 'recent');

export const recentCorners = async (): Promise<readonly Recent[]> => (await get<Recent[]>(KEY, recent)) ?? [];

/** Notes every file that is opened or saved from now on. */
export function noteRecent(nameOf: (source: unknown) => string): void {
  useDocument.subscribe((state, before) => {
    if (state.saved === before.saved || state.saved === undefined) return;
    const source = sourceInHand(state);
    const one = {
      fileName: state.fileName,
      name: nameOf(source),
      text: JSON.stringify(source),
      at: new Date(),
    };
    const withOne = (all: readonly Recent[] = []) =>
      [one, ...all.filter(({ fileName }) => fileName !== one.fileName)].slice(0, MOST);
    // A list for convenience: where the browser keeps nothing there is none. It may throw as well as reject.
    const note = async () => update<readonly Recent[]>(KEY, withOne, recent);
    note().catch(() => {});
  });
}
