import { type PairContact, pairContact } from '../sweep/pairContact.ts';
import type { Setup } from '../sweep/setUp.ts';
import type { Findings } from './findings.ts';

export type { PairContact } from '../sweep/pairContact.ts';

/**
 * The contact of each touching pair at its worst pose, by the pair's index. A pair of which one part lies inside the
 * other without meeting its surface has none.
 */
export function contactsOf(setup: Setup, findings: Findings): ReadonlyMap<number, PairContact> {
  return new Map(
    findings.pairs.flatMap(({ pair, state, worst }) => {
      const contact =
        state === 'touches' && worst !== undefined ? pairContact(setup, pair, worst) : undefined;
      return contact === undefined ? [] : [[pair, contact] as const];
    }),
  );
}
