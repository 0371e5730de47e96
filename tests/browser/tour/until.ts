import { isDeepStrictEqual } from 'node:util';

const TIMEOUT_MS = 60_000;
const INTERVAL_MS = 100;

/**
 * Polls until the value equals the expected one, or the predicate holds for it. Rejects with the last value after a minute.
 * Like `expect.poll` of vitest, but also outside a test.
 */
export async function until<T>(poll: () => Promise<T>, expected: T | ((value: T) => boolean)): Promise<T> {
  const holds = typeof expected === 'function' ? (expected as (value: T) => boolean) : undefined;
  const end = performance.now() + TIMEOUT_MS;
  for (;;) {
    const value = await poll();
    if (holds?.(value) ?? isDeepStrictEqual(value, expected)) return value;
    if (performance.now() > end)
      throw new Error(
        `after a minute the value is still ${JSON.stringify(value)}, expected ${holds ?? JSON.stringify(expected)}`,
      );
    await new Promise((resolve) => setTimeout(resolve, INTERVAL_MS));
  }
}
