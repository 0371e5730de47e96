import { afterEach, expect, it, vi } from 'vitest';
import { run } from '../../src/cli/main.ts';

/** Stands for a command that computes without a pause: it never looks at its messages. */
const ENDLESS = new URL('data:text/javascript,for (;;) ;');

afterEach(() => vi.restoreAllMocks());

it.each(['SIGINT', 'SIGTERM'] as const)('ends a command that never pauses on %s, with 130', async (name) => {
  const told: string[] = [];
  vi.spyOn(process.stderr, 'write').mockImplementation((text) => told.push(String(text)) > 0);
  const code = run([], ENDLESS);
  process.emit(name, name);
  expect(await code).toBe(130);
  expect(told.join('')).toBe('daylight: cancelled; nothing was written\n');
});

it('reports a command whose thread fails as a fault of its own', async () => {
  const told: string[] = [];
  vi.spyOn(process.stderr, 'write').mockImplementation((text) => told.push(String(text)) > 0);
  const failing = new URL("data:text/javascript,throw new Error('no luck')");
  expect(await run([], failing)).toBe(70);
  expect(told.join('')).toMatch(/a fault of Daylight itself, please report it: Error: no luck/);
});
