import { fileOpen, fileSave } from 'browser-fs-access';
import { sourceInHand, useDocument } from '../stores/documentStore.ts';

const KIND = {
  description: 'Corner file',
  mimeTypes: ['application/json'],
  extensions: ['.json'],
  id: 'corner',
};

/** Thrown by what a person called off. */
export const isCalledOff = (error: unknown): boolean =>
  error instanceof DOMException && error.name === 'AbortError';

/** A file that the person chooses, with the hold of it on the disk where the browser gives one. */
export async function chooseFile(): Promise<{ file: File; handle: FileSystemFileHandle | undefined }> {
  const file = await fileOpen(KIND);
  return { file, handle: file.handle };
}

export type Saved = 'saved' | 'changedOnDisk';

const MARK = '.has-problems';

/** A file name that says that the file has wrong values: `saltpan.has-problems.corner.json`. */
export function markedName(fileName: string): string {
  const stem = unmarkedName(fileName).replace(/(\.corner)?(\.json)?$/, '');
  return `${stem}${MARK}.corner.json`;
}

/** The file name without that mark. */
export const unmarkedName = (fileName: string): string => fileName.replace(MARK, '');

const fileOf = (source: unknown): Blob =>
  new Blob([`${JSON.stringify(source, null, 2)}\n`], { type: 'application/json' });

/**
 * Saves the state in hand with its wrong values as a copy under a marked name; the file itself stays as it was. Returns the
 * name of the copy. Rejects as `save` does.
 */
export async function saveMarkedCopy(): Promise<string> {
  const state = useDocument.getState();
  const fileName = markedName(state.fileName);
  const written = await fileSave(fileOf(sourceInHand(state)), { ...KIND, fileName }, null);
  return written?.name ?? fileName;
}

/**
 * Saves the file in hand: to where it came from, or to a place that the person chooses, or as a download where the
 * browser knows no other way. A file that something else has written since it was opened here is left alone unless
 * `overwrite`. Rejects when called off, and with the browser's words when it cannot be written.
 */
export async function save({ overwrite = false, elsewhere = false } = {}): Promise<Saved> {
  const state = useDocument.getState();
  const { onDisk } = state;
  const source = sourceInHand(state);
  const fileName = unmarkedName(state.fileName);
  // A valid state is not written to a file whose name says that it has wrong values.
  const handle = elsewhere || fileName !== state.fileName ? undefined : onDisk?.handle;
  if (handle !== undefined && onDisk !== undefined && !overwrite) {
    const { lastModified } = await handle.getFile();
    if (lastModified !== onDisk.lastModified) return 'changedOnDisk';
  }
  const written = await fileSave(fileOf(source), { ...KIND, fileName }, handle ?? null);
  const kept = written && { handle: written, lastModified: (await written.getFile()).lastModified };
  useDocument.setState({
    saved: source,
    ...(kept ? { onDisk: kept, fileName: kept.handle.name } : { fileName }),
  });
  return 'saved';
}
