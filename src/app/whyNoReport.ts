import type { Standing } from './stores/documentStore.ts';

/** Why no report can be made of the corner on screen, as the end of a sentence; undefined where one can. */
export function whyNoReport(standing: Standing, swept: boolean): string | undefined {
  if (standing === 'wrong') return 'the file has wrong values, correct them first';
  if (standing === 'building') return 'the last change is still being built';
  return swept ? undefined : 'the sweep is not finished';
}
