import { readFile } from 'node:fs/promises';

/** Input and output of a command, apart from its options. */
export interface Context {
  signal: AbortSignal;
  /** Prints one or more lines to standard output. */
  print(text: string): void;
  stderr: { readonly isTTY: boolean; write(text: string): void };
}

/** Version of the program, from package.json. */
export async function programVersion(): Promise<string> {
  const text = await readFile(new URL('../../package.json', import.meta.url), 'utf8');
  return JSON.parse(text).version;
}
