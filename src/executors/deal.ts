/**
 * Gives items to workers in their order, the next one to the worker that is free first, until none is left. `work` does an
 * item on a worker. Rejects with the signal's reason when cancelled, and with the first error of `work`; then no further
 * item is given, and the work in progress is not awaited.
 */
export async function deal<W, T>(
  workers: readonly W[],
  items: readonly T[],
  work: (worker: W, item: T, index: number) => Promise<void>,
  signal?: AbortSignal,
): Promise<void> {
  signal?.throwIfAborted();
  let next = 0;
  let hasEnded = false;
  let onAbort = () => {};
  const cancelled = new Promise<never>((_, reject) => {
    onAbort = () => reject(signal?.reason);
    signal?.addEventListener('abort', onAbort, { once: true });
  });
  const run = async (worker: W) => {
    while (next < items.length && !hasEnded) {
      const index = next++;
      await work(worker, items[index], index);
    }
  };
  try {
    await Promise.race([Promise.all(workers.map(run)), cancelled]);
  } finally {
    hasEnded = true;
    signal?.removeEventListener('abort', onAbort);
  }
}
