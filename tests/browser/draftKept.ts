import type { Page } from 'playwright-core';
import { until } from './tour/until.ts';

/** Waits until the browser has stored a draft that holds this text. On a busy machine that can take seconds. */
export async function draftKept(page: Page, text: string): Promise<void> {
  const stored = (): Promise<string> =>
    page.evaluate(
      () =>
        new Promise((done, fail) => {
          const opening = indexedDB.open('daylight-drafts');
          opening.onupgradeneeded = () => opening.result.createObjectStore('drafts');
          opening.onerror = () => fail(opening.error);
          opening.onsuccess = () => {
            const all = opening.result.transaction('drafts').objectStore('drafts').getAll();
            all.onerror = () => fail(all.error);
            all.onsuccess = () => {
              opening.result.close();
              done(JSON.stringify(all.result));
            };
          };
        }),
    );
  await until(stored, (kept) => kept.includes(text));
}
