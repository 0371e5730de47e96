import { existsSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { type Asset, type Assets, assetNamesIn, assetOf } from '../design/assets.ts';
import type { Design } from '../design/design.ts';
import { parseDesign } from '../design/parse.ts';
import { counted } from '../report/figures.ts';
import { visible } from '../units/plainText.ts';
import { DesignProblems, type Problem } from '../units/problem.ts';
import { EXIT, Failure } from './exit.ts';

/** Why a file or folder cannot be used, as text. */
export function fileErrorInWords(error: unknown): string {
  const code = (error as NodeJS.ErrnoException).code;
  if (code === 'ENOENT') return 'there is no such file or folder';
  if (code === 'EISDIR') return 'it is a folder';
  if (code === 'ENOTDIR' || code === 'EEXIST') return 'there is a file in place of the folder';
  if (code === 'EACCES' || code === 'EPERM') return 'permission is denied';
  if (code === 'ENOSPC') return 'the disk is full';
  if (code === 'EROFS') return 'the disk is read-only';
  return (error as Error).message;
}

/** A Failure with one line for each problem: path, what is wrong, value found. */
function problemsFailure(file: string, problems: readonly Problem[]): Failure {
  const lines = problems.map(({ path, found, message }) => {
    const where = path === '' ? '' : `${path}: `;
    const what = found === '' || message.includes(found) ? '' : ` (found ${found})`;
    return visible(`  ${where}${message}${what}`);
  });
  return new Failure(EXIT.badInput, [`${file}: ${counted(problems.length, 'problem')}`, ...lines].join('\n'));
}

/** The bytes of a file. Throws a Failure if it cannot be opened. */
export async function bytesOf(file: string): Promise<Uint8Array<ArrayBuffer>> {
  try {
    return await readFile(file);
  } catch (error) {
    throw new Failure(EXIT.noInput, `${file}: cannot be opened: ${fileErrorInWords(error)}`);
  }
}

/**
 * The assets that the text of a corner file lists, from the folder of the file. A missing one is left out: `parseDesign`
 * reports it with all other problems. Throws a Failure if one cannot be opened.
 */
async function assetsBeside(file: string, text: string): Promise<Assets> {
  const assets = new Map<string, Asset>();
  for (const name of assetNamesIn(text)) {
    const path = join(dirname(file), name);
    if (existsSync(path)) assets.set(name, assetOf(await bytesOf(path)));
  }
  return assets;
}

/** Reads a corner file and the files beside it that it lists. Throws a Failure if one cannot be opened or has errors. */
export async function readCorner(file: string): Promise<Design> {
  const bytes = await bytesOf(file);
  let text: string;
  try {
    text = new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    throw new Failure(EXIT.badInput, `${file}: is not UTF-8 text. Save it as UTF-8.`);
  }
  const read = parseDesign(text, await assetsBeside(file, text));
  if (read.kind === 'bad') throw problemsFailure(file, read.problems);
  return read.design;
}

/** Runs `work` on a corner; DesignProblems become a Failure that names the file. */
export async function namingFile<T>(file: string, work: () => Promise<T>): Promise<T> {
  try {
    return await work();
  } catch (error) {
    throw error instanceof DesignProblems ? problemsFailure(file, error.problems) : error;
  }
}
