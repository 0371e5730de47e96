import { constants } from 'node:fs';
import { access, mkdir, rename, rm, stat, writeFile } from 'node:fs/promises';
import { basename, dirname, join, resolve } from 'node:path';
import type { Assets } from '../design/assets.ts';
import { EXIT, Failure } from './exit.ts';
import { fileErrorInWords } from './readCorner.ts';

export interface OutputFile {
  name: string;
  data: string | Uint8Array;
}

const cannot = (folder: string, error: unknown) =>
  new Failure(EXIT.noOutput, `${folder}: cannot be written to: ${fileErrorInWords(error)}`);

/** Throws a Failure if files cannot be written to the folder. Creates nothing. */
export async function checkFolder(folder: string): Promise<void> {
  for (let at = resolve(folder); ; at = dirname(at)) {
    try {
      if (!(await stat(at)).isDirectory()) throw Object.assign(new Error(at), { code: 'ENOTDIR' });
      await access(at, constants.W_OK);
      return;
    } catch (error) {
      const missing = (error as NodeJS.ErrnoException).code === 'ENOENT' && at !== dirname(at);
      if (!missing) throw cannot(folder, error);
    }
  }
}

/**
 * Creates a folder and its parents one at a time: Node's recursive mkdir never ends if an existing folder refuses a new
 * one (/proc on Linux).
 */
async function makeFolder(folder: string): Promise<void> {
  try {
    await mkdir(folder);
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === 'EEXIST') return;
    if (code !== 'ENOENT' || dirname(folder) === folder) throw error;
    await makeFolder(dirname(folder));
    await mkdir(folder);
  }
}

/**
 * Writes the files into the folder, each complete or not at all: first as a draft in the same folder, which then replaces
 * the old file. Throws a Failure if that fails, and the abort reason if cancelled; remaining drafts are removed.
 */
export async function writeFiles(
  folder: string,
  files: readonly OutputFile[],
  signal: AbortSignal,
): Promise<void> {
  const written: { draft: string; place: string }[] = [];
  try {
    await makeFolder(resolve(folder));
    for (const { name, data } of files) {
      const draft = join(folder, `.${name}.${process.pid}.draft`);
      written.push({ draft, place: join(folder, name) });
      await writeFile(draft, data, { signal });
    }
    signal.throwIfAborted();
    for (const { draft, place } of written) await rename(draft, place);
  } catch (error) {
    await Promise.all(written.map(({ draft }) => rm(draft, { force: true })));
    signal.throwIfAborted();
    throw cannot(folder, error);
  }
}

/**
 * Writes a corner, as JSON, and the files that it lists beside it. Throws as `writeFiles` does.
 */
export async function writeCorner(
  source: unknown,
  assets: Assets,
  path: string,
  signal: AbortSignal,
): Promise<void> {
  const beside = [...assets].map(async ([name, { content }]) => ({
    name,
    data: new Uint8Array(await content.arrayBuffer()),
  }));
  const data = `${JSON.stringify(source, null, 2)}\n`;
  await writeFiles(dirname(path), [...(await Promise.all(beside)), { name: basename(path), data }], signal);
}
