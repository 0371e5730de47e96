import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll } from 'vitest';
import { type CornerSource, cornerText } from '../report/cornerSource.ts';
import { withWorkersHere } from './workersHere.ts';

const PROGRAM = resolve(import.meta.dirname, '../../src/cli/daylight.js');

export interface Ran {
  code: number | null;
  stdout: string;
  stderr: string;
}

/**
 * Runs a command line in this process: from the sources and with its workers in this thread, or by the commands of a built
 * program with real threads.
 */
export async function daylight(args: string[], program?: string): Promise<Ran> {
  if (program !== undefined) return runIn(await import(new URL('commands.js', program).href), args);
  const dispatch = await import('../../src/cli/dispatch.ts');
  return withWorkersHere(() => runIn(dispatch, args));
}

async function runIn(
  { runCommand }: typeof import('../../src/cli/dispatch.ts'),
  args: string[],
): Promise<Ran> {
  const ran: Ran = { code: null, stdout: '', stderr: '' };
  const code = await runCommand(args, {
    signal: new AbortController().signal,
    print: (text) => {
      ran.stdout += `${text}\n`;
    },
    stderr: {
      isTTY: false,
      write: (text) => {
        ran.stderr += text;
      },
    },
  });
  return { ...ran, code };
}

/** Runs the program in a process. `onStderr` receives all of standard error so far, and can send a signal. */
export function spawnDaylight(
  args: string[],
  onStderr?: (text: string, signal: (name: NodeJS.Signals) => void) => void,
): Promise<Ran> {
  return new Promise((done, fail) => {
    const child = spawn(process.execPath, [PROGRAM, ...args], { stdio: ['ignore', 'pipe', 'pipe'] });
    running.add(child);
    const ran: Ran = { code: null, stdout: '', stderr: '' };
    child.stdout.setEncoding('utf8').on('data', (text) => {
      ran.stdout += text;
    });
    child.stderr.setEncoding('utf8').on('data', (text) => {
      ran.stderr += text;
      onStderr?.(ran.stderr, (name) => child.kill(name));
    });
    child.on('error', fail);
    child.on('close', (code) => {
      running.delete(child);
      done({ ...ran, code });
    });
  });
}

const folders: string[] = [];
const running = new Set<ChildProcess>();
afterAll(() => {
  // A process is left only if a test timed out.
  for (const child of running) child.kill('SIGKILL');
  for (const folder of folders.splice(0)) rmSync(folder, { recursive: true, force: true });
});

/** Creates an empty folder, removed after the tests of the file. */
export function newFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'daylight-test-'));
  folders.push(folder);
  return folder;
}

/** Writes a corner file into a folder of its own and returns its path. */
export function cornerFile(changes: Partial<CornerSource> = {}): string {
  return textFile(cornerText(changes));
}

export function textFile(text: string | Uint8Array): string {
  const file = join(newFolder(), 'test.corner.json');
  writeFileSync(file, text);
  return file;
}
