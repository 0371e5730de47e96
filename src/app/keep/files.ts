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

/**
 * Saves the file in hand: to where it came from, or to a place that the person chooses, or as a download where the
 * browser knows no other way. A file that something else has written since it was opened here is left alone unless
 * `overwrite`. Rejects when called off, and with the browser's words when it cannot be written.
 */
export async function save({ overwrite = false, elsewhere = false } = {}): Promise<Saved> {
  const { fileName, onDisk } = useDocument.getState();
  const source = sourceInHand(useDocument.getState());
  const handle = elsewhere ? undefined : onDisk?.handle;
  if (handle !== undefined && onDisk !== undefined && !overwrite) {
    const { lastModified } = await handle.getFile();
    if (lastModified !== onDisk.lastModified) return 'changedOnDisk';
  }
  const blob = new Blob([`${JSON.stringify(source, null, 2)}\n`], { type: 'application/json' });
  const written = await fileSave(blob, { ...KIND, fileName }, handle ?? null);
  const kept = written && { handle: written, lastModified: (await written.getFile()).lastModified };
  useDocument.setState({
    saved: source,
    ...(kept ? { onDisk: kept, fileName: kept.handle.name } : {}),
  });
  return 'saved';
}
