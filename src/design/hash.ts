import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js';
import { type Assets, assetRecords } from './assets.ts';
import type { Corner } from './schema.ts';

/**
 * Fields that affect no clearance and no limit: names, notes, `assumed`, `fixed`, `measuredTo`, the mock-up, the whole
 * vehicle, and the unit and origin that the parsed values no longer need.
 */
const WITHOUT_EFFECT = new Set([
  '$schema',
  'name',
  'note',
  'label',
  'unit',
  'originHeight',
  'measuredTo',
  'assumed',
  'mockup',
  'vehicle',
  'fixed',
]);

/**
 * SHA-256 in hex of a corner's canonical JSON: fields sorted by name, defaults filled in, lengths in mm, without the
 * fields that affect no result; then a line for each asset with its SHA-256 and name. Equal for corners that give the
 * same results. `assets`: those that the corner lists, sorted by name.
 */
export function cornerHash({ assets: _names, ...corner }: Corner, assets: Assets): string {
  const lines = assetRecords(assets).map((asset) => `\n${asset.sha256} ${asset.name}`);
  return bytesToHex(sha256(utf8ToBytes(canonicalJson(corner) + lines.join(''))));
}

/** JSON with sorted fields, without `WITHOUT_EFFECT` and undefined fields. */
function canonicalJson(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(canonicalJson).join(',')}]`;
  if (typeof value !== 'object' || value === null) return JSON.stringify(value);
  const fields = Object.entries(value)
    .filter(([key, held]) => held !== undefined && !WITHOUT_EFFECT.has(key))
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([key, held]) => `${JSON.stringify(key)}:${canonicalJson(held)}`);
  return `{${fields.join(',')}}`;
}
