import { orNothing } from './orNothing.ts';

/** Names this tab holds on to across reloads; no two tabs have the same. */
const NAME = 'daylight-tab';
const lockOf = (tab: string): string => `${NAME}-${tab}`;

let own: Promise<string> | undefined;

/**
 * The name of this tab: that of before a reload, unless another tab has it too, as the copy of a tab does. From then on
 * other tabs can see that it is open, until it closes or dies.
 */
export function ownTab(): Promise<string> {
  own ??= nameTab();
  return own;
}

/** Whether this tab had a name before: it was reloaded. */
export const wasHereBefore = (): boolean => (orNothing(() => sessionStorage.getItem(NAME)) ?? null) !== null;

async function nameTab(): Promise<string> {
  const known = orNothing(() => sessionStorage.getItem(NAME)) ?? null;
  if (known !== null && (await hold(known))) return known;
  const tab = crypto.randomUUID();
  orNothing(() => sessionStorage.setItem(NAME, tab));
  await hold(tab);
  return tab;
}

/** Holds the lock of a tab for as long as this tab lives; false where another tab has it. */
function hold(tab: string): Promise<boolean> {
  return new Promise((resolve) => {
    void navigator.locks.request(lockOf(tab), { ifAvailable: true }, (lock) => {
      resolve(lock !== null);
      return lock === null ? undefined : new Promise<never>(() => {});
    });
  });
}

/** The tabs of this browser that have the workbench open. */
export async function openTabs(): Promise<ReadonlySet<string>> {
  const { held = [] } = await navigator.locks.query();
  return new Set(held.map(({ name }) => name?.slice(lockOf('').length) ?? ''));
}
