// Node cannot run the TypeScript sources: this bundles them to JavaScript after each change of a source.
import { createHash } from 'node:crypto';
import { chmod, mkdir, mkdtemp, readdir, readFile, rename, rm, stat, writeFile } from 'node:fs/promises';
import { basename, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';

const ROOT = fileURLToPath(new URL('../../', import.meta.url));
const BUILT = join(ROOT, 'built');
/** Names the folder of the newest build, and its sources with their hashes. */
const CURRENT = join(BUILT, 'current.json');
/** The program, the modules that its threads run, and the commands for a caller in the same process. */
const ENTRIES = {
  daylight: 'src/cli/main.ts',
  commands: 'src/cli/dispatch.ts',
  commandThread: 'src/cli/commandThread.ts',
  clockingThread: 'src/cli/clockingThread.ts',
  ratesThread: 'src/cli/ratesThread.ts',
  spaceThread: 'src/cli/spaceThread.ts',
  nodeWorker: 'src/executors/nodeWorker.ts',
};
/** This file: a change of it makes a new build. */
const BUILD_SCRIPT = 'src/cli/build.js';
/** An older build may still be in use: it is kept for this long, ms. */
const KEPT_MS = 24 * 60 * 60 * 1000;

const hashOf = (...data) => {
  const hash = createHash('sha256');
  for (const one of data) hash.update(one);
  return hash.digest('hex').slice(0, 16);
};

/**
 * URL of the built program. Builds it first if a source has changed since the last build. Rejects with an Error if the
 * folder of Daylight is not writable.
 */
export async function builtProgram() {
  const current = await readCurrent();
  const folder = current !== undefined && (await isFresh(current)) ? current.folder : await build();
  return pathToFileURL(join(BUILT, folder, 'daylight.js')).href;
}

async function readCurrent() {
  try {
    return JSON.parse(await readFile(CURRENT, 'utf8'));
  } catch {
    return undefined;
  }
}

/** True if every source has the same modification time, or else the same content. */
async function isFresh({ folder, inputs }) {
  try {
    const fresh = await Promise.all(
      [stat(join(BUILT, folder))].concat(
        Object.entries(inputs).map(async ([path, { mtimeMs, hash }]) => {
          const at = join(ROOT, path);
          return (await stat(at)).mtimeMs === mtimeMs || hashOf(await readFile(at)) === hash;
        }),
      ),
    );
    return fresh.every(Boolean);
  } catch {
    return false;
  }
}

async function inputOf(path) {
  const at = join(ROOT, path);
  const { mtimeMs } = await stat(at);
  return [path, { mtimeMs, hash: hashOf(await readFile(at)) }];
}

/** Bundles program, threads and commands in memory. `plugins`: of esbuild, for tests that replace a source. */
export async function bundle(plugins = []) {
  const esbuild = await import('esbuild');
  return esbuild.build({
    absWorkingDir: ROOT,
    entryPoints: Object.entries(ENTRIES).map(([out, path]) => ({ in: path, out })),
    bundle: true,
    splitting: true,
    format: 'esm',
    platform: 'node',
    target: 'node20',
    // They load WebAssembly and fonts from their own folders.
    external: ['manifold-3d', 'pdfmake'],
    outdir: BUILT,
    write: false,
    metafile: true,
    logLevel: 'error',
    plugins,
  });
}

/** Builds into a folder named by its content, so that concurrent runs never see half a build. Returns its name. */
async function build() {
  const { outputFiles, metafile } = await bundle();
  const paths = [BUILD_SCRIPT, ...Object.keys(metafile.inputs)];
  const inputs = Object.fromEntries(await Promise.all(paths.map(inputOf)));
  const folder = hashOf(...outputFiles.flatMap(({ path, contents }) => [basename(path), contents]));
  try {
    await mkdir(BUILT, { recursive: true });
    const draft = await mkdtemp(join(BUILT, '.draft-'));
    await chmod(draft, 0o755);
    for (const { path, contents } of outputFiles) await writeFile(join(draft, basename(path)), contents);
    // If the folder exists, it has the same content.
    await rename(draft, join(BUILT, folder)).catch(() => rm(draft, { recursive: true }));
    const list = join(BUILT, `.current.${process.pid}`);
    await writeFile(list, JSON.stringify({ folder, inputs }));
    await rename(list, CURRENT);
    await removeOld(folder);
  } catch (error) {
    throw new Error(
      `Daylight cannot write its built program to ${BUILT}: ${error.message}. Run it once as a user with write access to that folder.`,
    );
  }
  return folder;
}

async function removeOld(current) {
  for (const name of await readdir(BUILT)) {
    const at = join(BUILT, name);
    if (name === current || name === basename(CURRENT) || Date.now() - (await stat(at)).mtimeMs < KEPT_MS)
      continue;
    await rm(at, { recursive: true, force: true });
  }
}
