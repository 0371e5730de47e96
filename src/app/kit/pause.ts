/** Resolves after `ms`; other tasks of this thread run in the meantime. */
export const pause = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms));
