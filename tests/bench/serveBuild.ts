import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { build, preview } from 'vite';
import type { Served } from '../browser/server.ts';

const ROOT = resolve(import.meta.dirname, '../..');

/** Builds the workbench and serves it. Names of functions, which `minified` takes away, are of use in a trace alone. */
export async function serveBuild({ minified }: { minified: boolean }): Promise<Served> {
  const outDir = mkdtempSync(join(tmpdir(), 'daylight-build-'));
  const common = { root: ROOT, configFile: join(ROOT, 'vite.config.ts') };
  const minify = minified ? {} : { minify: false };
  await build({ ...common, logLevel: 'warn', build: { outDir, emptyOutDir: true, ...minify } });
  const server = await preview({ ...common, build: { outDir }, preview: { port: 0, open: false } });
  const url = server.resolvedUrls?.local[0];
  if (url === undefined) throw new Error('the preview server has no address');
  return {
    url,
    async close() {
      await server.close();
      rmSync(outDir, { recursive: true });
    },
  };
}
