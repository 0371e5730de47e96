import { afterEach, expect, it, vi } from 'vitest';
import { run } from '../../src/cli/main.ts';

/** A command that computes without a pause and never reads its messages. */
const ENDLESS = new URL('data:text/javascript,for (;;) ;');

afterEach(() => vi.restoreAllMocks());

it.each(['SIGINT', 'SIGTERM'] as const)('ends a command that never pauses on %s with 130', async (name) => {
  const written: string[] = [];
  vi.spyOn(process.stderr, 'write').mockImplementation((text) => written.push(String(text)) > 0);
  const code = run([], ENDLESS);
  process.emit(name, name);
  expect(await code).toBe(130);
  expect(written.join('')).toBe('daylight: cancelled; nothing was written\n');
});

it('reports a failed command thread as an internal error', async () => {
  const written: string[] = [];
  vi.spyOn(process.stderr, 'write').mockImplementation((text) => written.push(String(text)) > 0);
  const failing = new URL("data:text/javascript,throw new Error('no luck')");
  expect(await run([], failing)).toBe(70);
  expect(written.join('')).toMatch(/internal error of Daylight, please report it: Error: no luck/);
});
