import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll } from 'vitest';
import { type CornerSource, cornerText } from '../report/cornerSource.ts';

const PROGRAM = resolve(import.meta.dirname, '../../src/cli/daylight.js');

export interface Ran {
  code: number | null;
  stdout: string;
  stderr: string;
}

/** Runs the program as a person does. `onStderr` sees what it has said so far, and may signal it. */
export function daylight(
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
  // Only a test that ran out of time leaves one.
  for (const child of running) child.kill('SIGKILL');
  for (const folder of folders.splice(0)) rmSync(folder, { recursive: true, force: true });
});

/** An empty folder, removed when the tests of the file are done. */
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
