import { readJson } from '../design/jsonText.ts';
import { valueAt } from '../design/path.ts';
import { FORMAT, VERSION } from '../design/schema.ts';
import type { Change, History } from './stores/documentStore.ts';

/** The JSON of a text that is a corner file of this version, with wrong values or without; undefined for any other text. */
export function repairableSource(text: string): unknown {
  const read = readJson(text);
  if (read.kind === 'unreadable') return undefined;
  const isOurs = valueAt(read.value, ['format']) === FORMAT && valueAt(read.value, ['version']) === VERSION;
  return isOurs ? read.value : undefined;
}

/** The states to show instead of a state in hand that cannot be built, best first: the one last shown, then the newest. */
export function earlierStates({ changes, now, shown }: History): Change[] {
  const earlier = changes.slice(0, now).reverse();
  return shown === undefined ? earlier : [shown, ...earlier.filter(({ source }) => source !== shown.source)];
}
