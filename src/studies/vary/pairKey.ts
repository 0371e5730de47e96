import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex } from '@noble/hashes/utils.js';
import type { Mesh } from '../../solids/solid.ts';
import { pairId } from '../../sweep/pair.ts';
import { type Built, meshBeside } from '../../sweep/setUp.ts';

const digests = new WeakMap<Mesh, string>();

const bytesOf = ({ buffer, byteOffset, byteLength }: Float64Array | Uint32Array): Uint8Array =>
  new Uint8Array(buffer, byteOffset, byteLength);

/** SHA-256 of a mesh's vertices and triangles, hex; cached with the mesh. */
function digestOf(mesh: Mesh): string {
  const known = digests.get(mesh);
  if (known !== undefined) return known;
  const hash = sha256.create().update(bytesOf(mesh.positions)).update(bytesOf(mesh.triangles));
  const digest = bytesToHex(hash.digest());
  digests.set(mesh, digest);
  return digest;
}

/** Key of a corner's motion: equal for corners with the same poses over the same travel. */
export function motionKey({ mechanism, design }: Pick<Built, 'mechanism' | 'design'>): string {
  return JSON.stringify([mechanism, design.corner.suspension.travel]);
}

/**
 * Key of everything that a pair's result depends on: its two surfaces at ride height, their carriers and motion, the
 * zones of intended contact, and the target. Pairs with the same key have the same result, in any corner. `motion`:
 * see `motionKey`.
 */
export function pairKey(setup: Pick<Built, 'pairs' | 'solids'>, pair: number, motion: string): string {
  const { a, b, moves, zones, targetMm, targetOrigin, allowanceMm } = setup.pairs[pair];
  const sides = [
    [a, b],
    [b, a],
  ].map(([one, other]) => {
    const { mesh, chordErrorMm } = meshBeside(setup.solids[one], setup.solids[other]);
    return [setup.solids[one].carrier, chordErrorMm, digestOf(mesh)];
  });
  const key = [
    pairId(setup.solids, { a, b }),
    sides,
    zones,
    targetMm,
    targetOrigin,
    allowanceMm,
    moves ? motion : '',
  ];
  const digest = sha256(new TextEncoder().encode(JSON.stringify(key)));
  return bytesToHex(digest);
}
