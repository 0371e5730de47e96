import type { DocumentStatus } from './documentStore.ts';

/** Reason why no report can be made of the corner on screen, as the end of a sentence; undefined if one can be made. */
export function reportRefusal(status: DocumentStatus, swept: boolean): string | undefined {
  if (status === 'wrong') return 'the file has wrong values, correct them first';
  if (status === 'building') return 'the last change is still being built';
  return swept ? undefined : 'the sweep is not finished';
}
