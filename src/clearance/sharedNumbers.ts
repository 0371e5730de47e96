/**
 * An array in memory shared by all threads if the platform has it, so that passing a tree to a worker does not copy
 * it. Browsers have it in isolated pages. Elsewhere the array belongs to the thread.
 */
export const sharedNumbers = (count: number): Float64Array =>
  typeof SharedArrayBuffer === 'undefined'
    ? new Float64Array(count)
    : new Float64Array(new SharedArrayBuffer(8 * count));
