import { isDeepStrictEqual } from 'node:util';

const PATIENCE_MS = 60_000;
const ASK_EVERY_MS = 100;

/**
 * Asks until the answer is the one told, or one for which the function told holds; rejects with the last answer after a
 * minute. As the `expect.poll` of vitest, outside a test too.
 */
export async function until<T>(ask: () => Promise<T>, wanted: T | ((answer: T) => boolean)): Promise<T> {
  const holds = typeof wanted === 'function' ? (wanted as (answer: T) => boolean) : undefined;
  const end = performance.now() + PATIENCE_MS;
  for (;;) {
    const answer = await ask();
    if (holds?.(answer) ?? isDeepStrictEqual(answer, wanted)) return answer;
    if (performance.now() > end)
      throw new Error(
        `after a minute the answer is still ${JSON.stringify(answer)}, wanted ${holds ?? JSON.stringify(wanted)}`,
      );
    await new Promise((resolve) => setTimeout(resolve, ASK_EVERY_MS));
  }
}
