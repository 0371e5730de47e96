/** Lets other tasks of this thread come first, and time pass. */
export const pause = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms));
