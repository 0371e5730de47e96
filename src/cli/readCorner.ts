import { readFile } from 'node:fs/promises';
import type { Design } from '../design/design.ts';
import { parseDesign } from '../design/parse.ts';
import { visible } from '../design/plainText.ts';
import { DesignProblems, type Problem } from '../design/problem.ts';
import { counted } from '../report/figures.ts';
import { EXIT, Failure } from './exit.ts';

/** Why a file or folder could not be used, in words. */
export function fileErrorInWords(error: unknown): string {
  const code = (error as NodeJS.ErrnoException).code;
  if (code === 'ENOENT') return 'there is no such file or folder';
  if (code === 'EISDIR') return 'it is a folder';
  if (code === 'ENOTDIR' || code === 'EEXIST') return 'a file stands where a folder is needed';
  if (code === 'EACCES' || code === 'EPERM') return 'permission is denied';
  if (code === 'ENOSPC') return 'the disk is full';
  if (code === 'EROFS') return 'the disk cannot be written to';
  return (error as Error).message;
}

/** Each problem on a line: path, what is wrong, what was found. */
export function problemsFailure(file: string, problems: readonly Problem[]): Failure {
  const lines = problems.map(({ path, found, message }) => {
    const where = path === '' ? '' : `${path}: `;
    const what = found === '' || message.includes(found) ? '' : ` (found ${found})`;
    return visible(`  ${where}${message}${what}`);
  });
  return new Failure(EXIT.badInput, [`${file}: ${counted(problems.length, 'problem')}`, ...lines].join('\n'));
}

/** Reads a corner file. Throws a Failure where it cannot be opened or is not sound. */
export async function readCorner(file: string): Promise<Design> {
  let bytes: Buffer;
  try {
    bytes = await readFile(file);
  } catch (error) {
    throw new Failure(EXIT.noInput, `${file}: cannot be opened: ${fileErrorInWords(error)}`);
  }
  let text: string;
  try {
    text = new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    throw new Failure(EXIT.badInput, `${file}: is not UTF-8 text, as a corner file is`);
  }
  const read = parseDesign(text);
  if (read.kind === 'bad') throw problemsFailure(file, read.problems);
  return read.design;
}

/** Runs what needs a sound corner; its problems become a Failure that names the file. */
export async function namingFile<T>(file: string, work: () => Promise<T>): Promise<T> {
  try {
    return await work();
  } catch (error) {
    throw error instanceof DesignProblems ? problemsFailure(file, error.problems) : error;
  }
}
