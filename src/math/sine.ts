/**
 * Sine and cosine from sums and products alone. `Math.sin` and `Math.cos` differ by a bit between engine versions
 * (Node 20 and Chromium 147 disagree), and a sweep must give the same bytes on every engine.
 */
export { default as cos } from '@stdlib/math-base-special-cos';
export { default as sin } from '@stdlib/math-base-special-sin';
