import { readdirSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { gzipSync } from 'node:zlib';
import type { Browser } from 'playwright-core';
import { type PreviewServer, preview } from 'vite';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { wheelCorner } from '../design/fixtures.ts';
import { cachedBuild, SHIPPED_SOURCES } from './cachedBuild.ts';
import { chooseFile } from './onWorkbench.ts';
import { connectBrowser, VIEW } from './opened.ts';
import { savedReport } from './savedReport.ts';

const root = resolve(import.meta.dirname, '../..');
const configFile = resolve(root, 'vite.config.ts');
/** Folder of the built workers and of what they share. */
const WORKERS = 'assets/workers';
/** File names of the built workers. */
let workers: string[];
let server: PreviewServer;
let url: string;
let browser: Browser;

beforeAll(async () => {
  const { folder, done } = cachedBuild('vite.config.ts', SHIPPED_SOURCES);
  await done;
  workers = readdirSync(join(folder, WORKERS)).filter((name) => /Worker(Entry)?-[^.]+\.js$/.test(name));
  server = await preview({
    root,
    configFile,
    logLevel: 'error',
    build: { outDir: folder },
    preview: { port: 0, open: false },
  });
  url = server.resolvedUrls?.local[0] ?? '';
  browser = await connectBrowser();
});

afterAll(async () => {
  await browser?.close();
  await server?.close();
});

it('every worker of the build loads', async () => {
  expect(workers.length).toBeGreaterThan(15);
  const page = await browser.newPage({ serviceWorkers: 'block' });
  // A page without a content policy, which would have to allow workers.
  await page.goto(new URL('corner.schema.json', url).href);
  for (const name of workers) {
    const [worker] = await Promise.all([
      page.waitForEvent('worker'),
      page.evaluate((path) => void new Worker(path, { type: 'module' }), `/${WORKERS}/${name}`),
    ]);
    // Rejects if the script of the worker fails. As text, because the loader of tests replaces imports.
    await worker.evaluate('import(self.location.href)');
  }
  await page.close();
});

it('the built workbench loads few bytes, keeps its content policy, requests no other origin, and works offline', async () => {
  const context = await browser.newContext({ ...VIEW, serviceWorkers: 'allow' });
  const page = await context.newPage();
  const faults: string[] = [];
  const origins = new Set<string>();
  page.on('pageerror', (error) => faults.push(error.message));
  page.on('console', (message) => {
    if (message.type() === 'error') faults.push(message.text());
  });
  const scripts: Promise<Buffer>[] = [];
  page.on('response', (response) => {
    const isScript = response.request().resourceType() === 'script';
    if (isScript && !response.url().includes(`/${WORKERS}/`)) scripts.push(response.body());
  });
  context.on('request', (request) => origins.add(new URL(request.url()).origin));
  await page.addInitScript(() => {
    document.addEventListener('securitypolicyviolation', (event) =>
      console.error(`against the policy: ${event.violatedDirective} ${event.blockedURI}`),
    );
  });
  await page.goto(url);
  await page.getByRole('button', { name: 'I have read this' }).click({ timeout: 60_000 });
  const heading = (name: string) => page.getByRole('heading', { level: 1, name });
  await heading('Gravelbeck').waitFor({ timeout: 60_000 });
  // Takes less time than the demo.
  const corner = wheelCorner();
  await chooseFile(page, 'bench.corner.json', JSON.stringify(corner));
  await heading(corner.name).waitFor({ timeout: 60_000 });
  await page.locator('[data-progress=done]').waitFor({ timeout: 150_000 });
  const counts = await page.locator('.counts').textContent();
  const bytes = (await Promise.all(scripts)).reduce((sum, script) => sum + gzipSync(script).length, 0);
  expect(bytes).toBeGreaterThan(100_000);
  expect(bytes, 'scripts of the first load, gzipped, without workers').toBeLessThan(500_000);
  await page.evaluate(async () => {
    const { active } = await navigator.serviceWorker.ready;
    if (active !== null && active.state !== 'activated')
      await new Promise((done) => active.addEventListener('statechange', done, { once: true }));
  });

  await context.setOffline(true);
  await server.close();
  await page.reload();
  await heading(corner.name).waitFor({ timeout: 60_000 });
  await page.locator('[data-progress=done]').waitFor({ timeout: 150_000 });
  expect(await page.locator('.counts').textContent()).toBe(counts);
  // The script that writes the report is loaded only now.
  const download = await savedReport(page, 'left out');
  expect(download.suggestedFilename()).toMatch(/-clearance\.html$/);
  await page.goto(new URL('guide/find-the-hit.html', url).href);
  await page.getByRole('heading', { level: 1, name: 'Find the hit' }).waitFor();
  await page.waitForFunction(() => [...document.images].every((image) => image.naturalWidth > 0));
  expect(faults).toEqual([]);
  expect([...origins].filter((origin) => origin !== new URL(url).origin && origin !== 'null')).toEqual([]);
  await context.close();
});
