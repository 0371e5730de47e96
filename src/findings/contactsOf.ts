import type { PairContact } from '../sweep/pairContact.ts';
import type { Findings, TightSpot } from './findings.ts';

export type { PairContact } from '../sweep/pairContact.ts';

/**
 * The contact of each touching pair at its worst pose, by the pair's index, as `contactAt` has it. A pair of which one
 * part lies inside the other without meeting its surface has none.
 */
export async function contactsOf(
  findings: Findings,
  contactAt: (pair: number, worst: TightSpot) => Promise<PairContact | undefined>,
): Promise<ReadonlyMap<number, PairContact>> {
  const contacts = new Map<number, PairContact>();
  for (const { pair, state, worst } of findings.pairs) {
    const contact = state === 'touches' && worst !== undefined ? await contactAt(pair, worst) : undefined;
    if (contact !== undefined) contacts.set(pair, contact);
  }
  return contacts;
}
