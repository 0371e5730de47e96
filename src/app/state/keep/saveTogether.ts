import { fileSave } from 'browser-fs-access';

/** A file to write. */
export interface NamedFile {
  name: string;
  data: Blob;
}

type ChooseFolder = (options: { id: string; mode: 'readwrite' }) => Promise<FileSystemDirectoryHandle>;

/**
 * Writes files into one folder that the user chooses, in order; if the browser gives pages no folders, downloads one after the
 * other. Asks before it overwrites files. Returns the handle of the last file, if there is one. Rejects with an AbortError if
 * cancelled, and with the browser's message if a file cannot be written.
 */
export async function saveTogether(files: readonly NamedFile[]): Promise<FileSystemFileHandle | undefined> {
  const { showDirectoryPicker } = window as { showDirectoryPicker?: ChooseFolder };
  if (showDirectoryPicker === undefined) {
    for (const { name, data } of files) await fileSave(data, { fileName: name });
    return undefined;
  }
  const folder = await showDirectoryPicker.call(window, { id: 'corner', mode: 'readwrite' });
  const there: string[] = [];
  for await (const name of folder.keys()) if (files.some((file) => file.name === name)) there.push(name);
  if (there.length > 0 && !window.confirm(`${folder.name} already has ${there.join(', ')}. Overwrite?`))
    throw new DOMException('not overwritten', 'AbortError');
  let written: FileSystemFileHandle | undefined;
  for (const { name, data } of files) {
    written = await folder.getFileHandle(name, { create: true });
    const stream = await written.createWritable();
    await stream.write(data);
    await stream.close();
  }
  return written;
}
