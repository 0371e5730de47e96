/**
 * Sine and cosine from sums and products alone. Those of the language differ by a bit from one version of an engine to
 * the next (Node 20 and Chromium 147 disagree), and the same corner is to give the same bytes wherever it is swept.
 */
export { default as cos } from '@stdlib/math-base-special-cos';
export { default as sin } from '@stdlib/math-base-special-sin';
