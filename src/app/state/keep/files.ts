import { type FileWithHandle, fileOpen, fileSave } from 'browser-fs-access';
import type { Assets } from '../../../design/assets.ts';
import { currentSource, useDocument } from '../documentStore.ts';
import { saveTogether } from './saveTogether.ts';

const FILE_KIND = {
  description: 'Corner file',
  mimeTypes: ['application/json'],
  extensions: ['.json'],
  id: 'corner',
};

/** Whether an error means that the user cancelled a dialog. */
export const isCancelled = (error: unknown): boolean =>
  error instanceof DOMException && error.name === 'AbortError';

/** Files that the user chooses, with their handles if the browser provides them. Rejects when cancelled. */
export const chooseFiles = (): Promise<FileWithHandle[]> => fileOpen({ ...FILE_KIND, multiple: true });

/** `names`: the files that were written. */
export type Saved = { kind: 'saved'; names: readonly string[] } | { kind: 'changedOnDisk' };

const MARK = '.has-problems';

/** File name that marks the file as having wrong values: `gravelbeck.has-problems.corner.json`. */
export function markedName(fileName: string): string {
  const stem = unmarkedName(fileName).replace(/(\.corner)?(\.json)?$/, '');
  return `${stem}${MARK}.corner.json`;
}

/** The file name without the mark. */
export const unmarkedName = (fileName: string): string => fileName.replace(MARK, '');

/**
 * Writes a state of the open file over `handle`, or under a name, then with its assets. Returns the handle, if there is one,
 * and the names of all files written.
 */
async function write(
  { source, assets }: { source: unknown; assets: Assets },
  fileName: string,
  handle?: FileSystemFileHandle,
): Promise<{ written: FileSystemFileHandle | undefined; names: string[] }> {
  const text = `${JSON.stringify(source, null, 2)}\n`;
  const data = new Blob([text], { type: 'application/json' });
  const beside = [...assets].map(([name, { content }]) => ({ name, data: content }));
  if (handle === undefined && beside.length > 0) {
    // The corner comes last, so that it is never without a file that it lists.
    const files = [...beside, { name: fileName, data }];
    return { written: await saveTogether(files), names: files.map(({ name }) => name) };
  }
  const written = (await fileSave(data, { ...FILE_KIND, fileName }, handle ?? null)) ?? undefined;
  return { written, names: [written?.name ?? fileName] };
}

/**
 * Saves the current state with its wrong values, and its assets, as a copy under a marked name; the file itself is not
 * changed. Returns the names of the files written. Rejects like `save`.
 */
export async function saveMarkedCopy(): Promise<readonly string[]> {
  const state = useDocument.getState();
  const saved = { source: currentSource(state), assets: state.assets };
  return (await write(saved, markedName(state.fileName))).names;
}

/**
 * Saves the open file: over the file it came from, whose assets are beside it already; else with its assets, to a place that
 * the user chooses, or as downloads if the browser has no other way. If the file on disk was changed since it was opened
 * here, writes only with `overwrite`. Rejects when cancelled, and with the browser's message if the file cannot be written.
 */
export async function save({ overwrite = false, elsewhere = false } = {}): Promise<Saved> {
  const state = useDocument.getState();
  const { assets, onDisk } = state;
  const source = currentSource(state);
  const fileName = unmarkedName(state.fileName);
  // A valid state is not written to a file whose name says that it has wrong values.
  const handle = elsewhere || fileName !== state.fileName ? undefined : onDisk?.handle;
  if (handle !== undefined && onDisk !== undefined && !overwrite) {
    const { lastModified } = await handle.getFile();
    if (lastModified !== onDisk.lastModified) return { kind: 'changedOnDisk' };
  }
  const { written, names } = await write({ source, assets }, fileName, handle);
  const kept = written && { handle: written, lastModified: (await written.getFile()).lastModified };
  useDocument.setState({
    saved: source,
    ...(kept ? { onDisk: kept, fileName: kept.handle.name } : { fileName }),
  });
  return { kind: 'saved', names };
}
