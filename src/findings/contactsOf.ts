import type { PairContact } from '../sweep/pairContact.ts';
import type { Findings, TightSpot } from './findings.ts';

export type { PairContact } from '../sweep/pairContact.ts';

/**
 * The contact of each touching pair at its worst pose, by the pair's index. `contactAt` computes one contact. A pair
 * without crossing surfaces, because one part is inside the other, has none.
 */
export async function contactsOf(
  findings: Findings,
  contactAt: (pair: number, worst: TightSpot) => Promise<PairContact | undefined>,
): Promise<ReadonlyMap<number, PairContact>> {
  const requests = findings.pairs.flatMap(({ pair, state, worst }) =>
    state === 'touches' && worst !== undefined
      ? [contactAt(pair, worst).then((contact) => ({ pair, contact }))]
      : [],
  );
  const found = await Promise.all(requests);
  return new Map(found.flatMap(({ pair, contact }) => (contact === undefined ? [] : [[pair, contact]])));
}
