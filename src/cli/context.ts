import { readFile } from 'node:fs/promises';

/** What a command is given besides its options. */
export interface Context {
  signal: AbortSignal;
  /** A line, or several, on standard output. */
  print(text: string): void;
  stderr: { readonly isTTY: boolean; write(text: string): void };
}

/** Of the program, from its package. */
export async function programVersion(): Promise<string> {
  const text = await readFile(new URL('../../package.json', import.meta.url), 'utf8');
  return JSON.parse(text).version;
}
