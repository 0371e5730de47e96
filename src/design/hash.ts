import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js';
import type { Corner } from './schema.ts';

/** Fields that change no number: what things are called, what was measured, and how what is mm from the ground by now was typed. */
const NO_NUMBER = new Set(['$schema', 'name', 'note', 'label', 'unit', 'originHeight', 'assumed']);

/**
 * SHA-256 in hex of a corner's canonical JSON: fields sorted by name, defaults filled in, lengths in mm, without the
 * fields that change no number. Equal for corners that are the same to the engine.
 */
export function cornerHash(corner: Corner): string {
  return bytesToHex(sha256(utf8ToBytes(canonicalJson(corner))));
}

/** JSON with sorted fields; fields of `NO_NUMBER` and undefined ones are left out. */
function canonicalJson(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(canonicalJson).join(',')}]`;
  if (typeof value !== 'object' || value === null) return JSON.stringify(value);
  const fields = Object.entries(value)
    .filter(([key, held]) => held !== undefined && !NO_NUMBER.has(key))
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([key, held]) => `${JSON.stringify(key)}:${canonicalJson(held)}`);
  return `{${fields.join(',')}}`;
}
