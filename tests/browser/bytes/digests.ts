import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex } from '@noble/hashes/utils.js';
import type { Proof } from '../../../src/proof/prove.ts';
import type { ClockingStudy } from '../../../src/studies/clocking/study.ts';
import { DEFAULT_SETTINGS, type SweepResult, type SweepSettings } from '../../../src/sweep/result.ts';

/** Few steps, to be quick, at the chord tolerance of a full sweep. */
export const STEPS: SweepSettings = { ...DEFAULT_SETTINGS, travelSteps: 9, steerSteps: 7 };

/** SHA-256 of the bytes of each array of a sweep, and of all numbers of a proof. */
export function digestsOf(result: SweepResult, proof: Proof): Record<string, string> {
  const digests: Record<string, string> = {};
  for (const [name, value] of Object.entries(result)) {
    if (ArrayBuffer.isView(value))
      digests[name] = bytesToHex(sha256(new Uint8Array(value.buffer, value.byteOffset, value.byteLength)));
  }
  digests.proof = bytesToHex(sha256(new TextEncoder().encode(toText(proof))));
  return digests;
}

/** SHA-256 of all numbers of the profiles and candidates of a clocking study. */
export const digestOfClocking = ({ profiles, candidates }: ClockingStudy): string => {
  const numbers = [profiles.map(({ profile }) => profile), candidates];
  return bytesToHex(sha256(new TextEncoder().encode(toText(numbers))));
};

/** JSON with NaN and infinities; the shortest text of a number identifies it exactly. */
const toText = (data: unknown): string =>
  JSON.stringify(data, (_, value: unknown) => {
    if (typeof value === 'number') return Object.is(value, -0) ? '-0' : String(value);
    return ArrayBuffer.isView(value) ? [...(value as Float64Array)] : value;
  });
