/** Fields that mark the other values of their part, or of the suspension. */
export const MARKS: ReadonlySet<unknown> = new Set(['assumed', 'fixed']);
