import { execFile } from 'node:child_process';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { promisify } from 'node:util';
import { type Plugin, preview } from 'vite';
import type { TestProject } from 'vitest/node';
import { launchChromiumServer } from './chromium.ts';

declare module 'vitest' {
  interface ProvidedContext {
    /** Base URL of the served pages. */
    pagesUrl: string;
    /** WebSocket endpoint of the shared browser. */
    browserEndpoint: string;
  }
}

const ROOT = resolve(import.meta.dirname, '../..');
const CONFIG = join(import.meta.dirname, 'pages.config.ts');

/**
 * Builds and serves the pages and starts the browser, once for all browser test files. Returns the teardown. The pages are
 * built while other tests run; a request waits for them. If they cannot be built, the teardown fails.
 */
export default async function servePages({ provide }: TestProject): Promise<() => Promise<void>> {
  const folder = await mkdtemp(join(tmpdir(), 'daylight-pages-'));
  // In its own process: in this one NODE_ENV is "test".
  const vite = resolve(ROOT, 'node_modules/vite/bin/vite.js');
  const build = promisify(execFile)(
    process.execPath,
    [vite, 'build', '--config', CONFIG, '--outDir', folder, '--emptyOutDir'],
    { cwd: ROOT, env: { ...process.env, NODE_ENV: 'production' } },
  );
  const built: Plugin = {
    name: 'wait-for-build',
    configurePreviewServer({ middlewares }) {
      middlewares.use((_, __, next) => {
        build.then(() => next(), next);
      });
    },
  };
  const [browser, server] = await Promise.all([
    launchChromiumServer(),
    preview({
      root: ROOT,
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
    await build;
    await rm(folder, { recursive: true, force: true });
  };
}
