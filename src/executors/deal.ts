/** What a worker does: prepares itself before its first item, and does an item. */
interface DealtWork<W, T> {
  prepare?(worker: W): Promise<unknown>;
  work(worker: W, item: T, index: number): Promise<void>;
}

/**
 * Gives items to workers in their order, the next one to the worker that is free first, until none is left. Rejects with the
 * signal's reason when cancelled, and with the first error of a worker; then no further item is given, and the work in
 * progress is not awaited.
 */
export async function deal<W, T>(
  workers: readonly W[],
  items: readonly T[],
  { prepare, work }: DealtWork<W, T>,
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
    if (items.length > 0) await prepare?.(worker);
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
