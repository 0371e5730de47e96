import { readJson } from '../../design/jsonText.ts';
import { valueAt } from '../../design/path.ts';
import { FORMAT, VERSION } from '../../design/schema.ts';
import type { Change, History } from './documentStore.ts';

/** JSON of a text that is a corner file of this version, even with wrong values; undefined for any other text. */
export function repairableSource(text: string): unknown {
  const read = readJson(text);
  if (read.kind === 'unreadable') return undefined;
  const isOurs = valueAt(read.value, ['format']) === FORMAT && valueAt(read.value, ['version']) === VERSION;
  return isOurs ? read.value : undefined;
}

/** States to show if the current state cannot be built, best first: the last one shown, then the newest. */
export function earlierStates({ changes, now, shown }: History): Change[] {
  const earlier = changes.slice(0, now).reverse();
  return shown === undefined ? earlier : [shown, ...earlier.filter(({ source }) => source !== shown.source)];
}
