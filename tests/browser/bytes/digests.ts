import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex } from '@noble/hashes/utils.js';
import type { ClockingStudy } from '../../../src/studies/clocking/study.ts';
import type { Proof } from '../../../src/sweep/prove.ts';
import { DEFAULT_SETTINGS, type SweepResult, type SweepSettings } from '../../../src/sweep/result.ts';

/** Few enough steps to wait for, at the fineness of a full sweep. */
export const STEPS: SweepSettings = { ...DEFAULT_SETTINGS, travelSteps: 9, steerSteps: 7 };

/** SHA-256 of the bytes of each array of a sweep, and of each number of a proof to its last bit. */
export function digestsOf(result: SweepResult, proof: Proof): Record<string, string> {
  const digests: Record<string, string> = {};
  for (const [name, value] of Object.entries(result)) {
    if (ArrayBuffer.isView(value))
      digests[name] = bytesToHex(sha256(new Uint8Array(value.buffer, value.byteOffset, value.byteLength)));
  }
  digests.proof = bytesToHex(sha256(new TextEncoder().encode(toText(proof))));
  return digests;
}

/** SHA-256 of each number of the profiles and candidates of a clocking study to its last bit. */
export const digestOfClocking = ({ profiles, candidates }: ClockingStudy): string => {
  const told = [profiles.map(({ profile }) => profile), candidates];
  return bytesToHex(sha256(new TextEncoder().encode(toText(told))));
};

/** JSON, but with the numbers that it has no words for; the shortest text of a number is of that number alone. */
const toText = (told: unknown): string =>
  JSON.stringify(told, (_, value: unknown) => {
    if (typeof value === 'number') return Object.is(value, -0) ? '-0' : String(value);
    return ArrayBuffer.isView(value) ? [...(value as Float64Array)] : value;
  });
