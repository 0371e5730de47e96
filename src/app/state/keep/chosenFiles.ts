import type { FileWithHandle } from 'browser-fs-access';
import { assetNamesIn, assetOf, type CornerFiles } from '../../../design/assets.ts';
import type { Problem } from '../../../units/problem.ts';
import type { OnDisk } from '../documentStore.ts';
import { notCornerFileReason } from './fileType.ts';

/** A corner file with the files beside it, or the reasons why the chosen files cannot be opened. */
export type Chosen =
  | (CornerFiles & { kind: 'corner'; fileName: string; onDisk: OnDisk | undefined })
  | { kind: 'rejected'; fileName: string; problems: readonly Problem[] };

/**
 * Reads files that are chosen or dropped together: one corner file, and the files that it lists as assets. At least one file
 * must be given.
 */
export async function readChosen(files: readonly FileWithHandle[]): Promise<Chosen> {
  const [file, second] = cornerFilesAmong(files);
  const rejected = (path: string, found: string, message: string): Chosen => ({
    kind: 'rejected',
    fileName: file.name,
    problems: [{ path, found, message }],
  });
  if (second !== undefined) return rejected('', second.name, 'is chosen too; open one corner file at a time');
  const reason = await notCornerFileReason(file);
  if (reason !== undefined) return rejected('', '', reason);
  const text = await file.text();
  const names = assetNamesIn(text);
  const beside = files.filter((one) => one !== file);
  const unlisted = beside.find(({ name }) => !names.includes(name));
  if (unlisted !== undefined)
    return rejected(
      'assets',
      unlisted.name,
      'is chosen too, but the corner file does not list it; open the corner without it, or add its name to "assets"',
    );
  const read = beside.map(
    async (one) => [one.name, assetOf(new Uint8Array(await one.arrayBuffer()))] as const,
  );
  return {
    kind: 'corner',
    fileName: file.name,
    text,
    assets: new Map(await Promise.all(read)),
    onDisk: file.handle && { handle: file.handle, lastModified: file.lastModified },
  };
}

/** The files that are corner files by their names; if none is, the first file. */
function cornerFilesAmong(files: readonly FileWithHandle[]): FileWithHandle[] {
  const ending = (end: string) => files.filter(({ name }) => name.toLowerCase().endsWith(end));
  return [ending('.corner.json'), ending('.json')].find(({ length }) => length > 0) ?? [files[0]];
}
