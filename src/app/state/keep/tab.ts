import { undefinedOnError } from './undefinedOnError.ts';

/** Storage key of the name of this tab, which survives reloads and is unique among open tabs. */
const NAME = 'daylight-tab';
const lockOf = (tab: string): string => `${NAME}-${tab}`;

let own: Promise<string> | undefined;

/**
 * Name of this tab, the same after a reload. A duplicated tab gets a new name. Holds a lock under this name, by which other
 * tabs see that the tab is open.
 */
export function ownTab(): Promise<string> {
  own ??= nameTab();
  return own;
}

/** Whether this tab had a name already, that is, was reloaded. */
export const wasReloaded = (): boolean =>
  (undefinedOnError(() => sessionStorage.getItem(NAME)) ?? null) !== null;

async function nameTab(): Promise<string> {
  const known = undefinedOnError(() => sessionStorage.getItem(NAME)) ?? null;
  if (known !== null && (await acquireLock(known))) return known;
  const tab = crypto.randomUUID();
  undefinedOnError(() => sessionStorage.setItem(NAME, tab));
  await acquireLock(tab);
  return tab;
}

/** Holds the lock of a tab until this tab closes. Returns false if another tab holds it. */
function acquireLock(tab: string): Promise<boolean> {
  return new Promise((resolve) => {
    void navigator.locks.request(lockOf(tab), { ifAvailable: true }, (lock) => {
      resolve(lock !== null);
      return lock === null ? undefined : new Promise<never>(() => {});
    });
  });
}

/** Names of the tabs of this browser that have the workbench open. */
export async function openTabs(): Promise<ReadonlySet<string>> {
  const { held = [] } = await navigator.locks.query();
  return new Set(held.map(({ name }) => name?.slice(lockOf('').length) ?? ''));
}
