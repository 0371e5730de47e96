import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex } from '@noble/hashes/utils.js';
import { assetNameFault } from '../units/plainText.ts';
import type { Problem } from '../units/problem.ts';
import { readJson } from './jsonText.ts';
import { pathText, snippet, valueAt } from './path.ts';

/** The contents of a file beside a corner file. Threads and workers that are sent a blob share its bytes. */
export interface Asset {
  content: Blob;
  /** SHA-256 of the content, hex. */
  sha256: string;
}

/** The files beside a corner file, by file name. */
export type Assets = ReadonlyMap<string, Asset>;

export const NO_ASSETS: Assets = new Map();

/** The text of a corner file and the files beside it. */
export interface CornerFiles {
  text: string;
  assets: Assets;
}

/** An asset with these bytes. */
export const assetOf = (bytes: Uint8Array<ArrayBuffer>): Asset => ({
  content: new Blob([bytes]),
  sha256: bytesToHex(sha256(bytes)),
});

const isAssetName = (listed: unknown): listed is string =>
  typeof listed === 'string' && assetNameFault(listed) === undefined;

function listedIn(source: unknown): unknown[] {
  const listed = valueAt(source, ['assets']);
  return Array.isArray(listed) ? listed : [];
}

/** The valid names of assets that the text of a corner file lists; none if it cannot be read. */
export function assetNamesIn(text: string): string[] {
  const read = readJson(text);
  return read.kind === 'read' ? listedIn(read.value).filter(isAssetName) : [];
}

/** Problems with the valid names of assets that a file lists: listed twice, or missing in `assets`. */
export function assetProblems(source: unknown, assets: Assets): Problem[] {
  return listedIn(source).flatMap((name, at, all) => {
    if (!isAssetName(name)) return [];
    const isTwice = all.indexOf(name) < at;
    if (!isTwice && assets.has(name)) return [];
    const message = isTwice
      ? 'is listed twice; remove one of the two'
      : 'is not beside the corner file; put the file into the same folder (on the workbench, open both together), or remove its name';
    return [{ path: pathText(['assets', at]), found: snippet(name), message }];
  });
}

/** The assets with these names, sorted by name. */
export const namedAssets = (names: readonly string[], assets: Assets): Assets =>
  new Map(
    [...assets].filter(([name]) => names.includes(name)).sort(([one], [other]) => (one < other ? -1 : 1)),
  );

/** Name, size and SHA-256 of each asset, for results. */
export const assetRecords = (assets: Assets): { name: string; bytes: number; sha256: string }[] =>
  [...assets].map(([name, { content, sha256: digest }]) => ({ name, bytes: content.size, sha256: digest }));
