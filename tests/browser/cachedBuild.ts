import { execFile } from 'node:child_process';
import { createHash } from 'node:crypto';
import {
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  utimesSync,
} from 'node:fs';
import { join, resolve } from 'node:path';
import { promisify } from 'node:util';

const ROOT = resolve(import.meta.dirname, '../..');
const CACHE = resolve(ROOT, 'node_modules/.cache/daylight-pages');

/** What the shipped pages are built from. */
export const SHIPPED_SOURCES = [
  'src',
  'public',
  'demo-data',
  'index.html',
  'vite.config.ts',
  'package.json',
  'package-lock.json',
  'tsconfig.json',
];

/** A build that has not been used for so long is removed, ms. */
const KEPT_MS = 24 * 60 * 60 * 1000;

interface CachedBuild {
  /** Folder of the built pages, which exists once they are built. */
  folder: string;
  /** Rejects if the build fails. */
  done: Promise<void>;
}

/**
 * Builds pages with a configuration of Vite, unless the cache has a build of the same sources. `config` and `sources` are
 * paths in the repository; nothing else of the repository may be in the build.
 */
export function cachedBuild(config: string, sources: readonly string[]): CachedBuild {
  const hash = createHash('sha256').update(`${config} ${process.version}`);
  for (const path of [...sources, config].flatMap(filesIn))
    hash.update(`\0${path}\0`).update(readFileSync(resolve(ROOT, path)));
  const folder = join(CACHE, hash.digest('hex').slice(0, 32));
  if (!existsSync(folder)) return { folder, done: build(config, folder) };
  const now = new Date();
  utimesSync(folder, now, now);
  return { folder, done: Promise.resolve() };
}

/** The files of a folder, or the file itself, in one order on every machine. */
function filesIn(path: string): string[] {
  const absolute = resolve(ROOT, path);
  if (!statSync(absolute).isDirectory()) return [path];
  return readdirSync(absolute)
    .toSorted()
    .flatMap((name) => filesIn(`${path}/${name}`));
}

async function build(config: string, folder: string): Promise<void> {
  mkdirSync(CACHE, { recursive: true });
  for (const name of readdirSync(CACHE)) {
    const old = join(CACHE, name);
    if (Date.now() - statSync(old).mtimeMs > KEPT_MS) rmSync(old, { recursive: true, force: true });
  }
  // Another run may build the same at the same time: the first to finish gives the build its name.
  const partial = `${folder}-${process.pid}`;
  // As a person builds it, in its own process: in this one NODE_ENV is "test".
  await promisify(execFile)('npm', ['run', 'build', '--', '--config', config, '--outDir', partial], {
    cwd: ROOT,
    env: { ...process.env, NODE_ENV: 'production' },
    // On Windows npm is a script.
    shell: process.platform === 'win32',
  });
  if (existsSync(folder)) rmSync(partial, { recursive: true });
  else renameSync(partial, folder);
}
