import { type Browser, chromium } from 'playwright-core';
import { inject } from 'vitest';

/** Connects to the shared browser. Closing it closes only the caller's contexts. */
export const connectBrowser = (): Promise<Browser> => chromium.connect(inject('browserEndpoint'));

/** URL of a built page. */
export const pageAt = (path: string): string => new URL(path, inject('pagesUrl')).href;

/** URL of the workbench with a coarse sweep; `tests/app/coarse/main.tsx` describes its query. */
export const coarsePage = (query: Readonly<Record<string, string>>): string =>
  pageAt(`/tests/app/coarse/index.html?${new URLSearchParams(query)}`);

/**
 * A window of usual size. Software rendering takes less time with a quarter of the pixels, and with views that change at
 * once in place of a turn of many frames.
 */
export const VIEW = {
  viewport: { width: 1440, height: 900 },
  deviceScaleFactor: 0.5,
  reducedMotion: 'reduce',
  // Otherwise each page stores the whole program again, for use without a network.
  serviceWorkers: 'block',
} as const;
