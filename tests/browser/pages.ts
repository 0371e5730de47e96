import { resolve } from 'node:path';
import { type Plugin, preview } from 'vite';
import type { TestProject } from 'vitest/node';
import { cachedBuild } from './cachedBuild.ts';
import { launchChromiumServer } from './chromium.ts';
import { PAGES_SOURCES } from './pages.config.ts';

declare module 'vitest' {
  interface ProvidedContext {
    /** Base URL of the served pages. */
    pagesUrl: string;
    /** WebSocket endpoint of the shared browser. */
    browserEndpoint: string;
  }
}

const CONFIG = 'tests/browser/pages.config.ts';

/**
 * Builds and serves the pages and starts the browser, once for all browser test files. Returns the teardown. The pages are
 * built while other tests run; a request waits for them. If they cannot be built, the teardown fails.
 */
export default async function servePages({ provide }: TestProject): Promise<() => Promise<void>> {
  const { folder, done } = cachedBuild(CONFIG, PAGES_SOURCES);
  const built: Plugin = {
    name: 'wait-for-build',
    configurePreviewServer({ middlewares }) {
      middlewares.use((_, __, next) => {
        done.then(() => next(), next);
      });
    },
  };
  const [browser, server] = await Promise.all([
    launchChromiumServer(),
    preview({
      root: resolve(import.meta.dirname, '../..'),
      configFile: CONFIG,
      logLevel: 'error',
      plugins: [built],
      build: { outDir: folder },
      preview: { port: 0, open: false },
    }),
  ]);
  provide('pagesUrl', server.resolvedUrls?.local[0] ?? '');
  provide('browserEndpoint', browser.wsEndpoint());
  return async () => {
    await browser.close();
    await server.close();
    await done;
  };
}
