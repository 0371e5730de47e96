/**
 * So many numbers, in memory that all threads see where the platform has such: a tree that is given to a worker is then
 * not copied. Browsers have it for pages that are isolated; elsewhere the numbers are the thread's own.
 */
export const sharedNumbers = (count: number): Float64Array =>
  typeof SharedArrayBuffer === 'undefined'
    ? new Float64Array(count)
    : new Float64Array(new SharedArrayBuffer(8 * count));
