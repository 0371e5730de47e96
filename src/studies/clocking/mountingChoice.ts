import type { Design } from '../../design/design.ts';
import { type Mounting, mountingsOf } from './apply.ts';

/** The ways round that are to be studied: one of them, or all that a corner can be mounted. */
export const MOUNTING_CHOICES = ['drawn', 'mirrored', 'bolts-turned', 'both', 'all'] as const;
export type MountingChoice = (typeof MOUNTING_CHOICES)[number];

const ONE: Record<Exclude<MountingChoice, 'all'>, Mounting> = {
  drawn: { caliperMirrored: false, headsTurned: false },
  mirrored: { caliperMirrored: true, headsTurned: false },
  'bolts-turned': { caliperMirrored: false, headsTurned: true },
  both: { caliperMirrored: true, headsTurned: true },
};

/** What a mounting is called; never `all`. */
export const choiceOf = ({ caliperMirrored, headsTurned }: Mounting): Exclude<MountingChoice, 'all'> => {
  if (caliperMirrored) return headsTurned ? 'both' : 'mirrored';
  return headsTurned ? 'bolts-turned' : 'drawn';
};

/**
 * The mountings of a choice, as drawn first. Throws a RangeError for one that the corner does not have: a caliper without a
 * bleed screw is the same the other way round, and hub bolts have to be in the file to be turned.
 */
export function mountingsFor(design: Design, choice: MountingChoice): Mounting[] {
  const known = mountingsOf(design);
  if (choice === 'all') return known;
  const one = ONE[choice];
  if (one.headsTurned && !known.some(({ headsTurned }) => headsTurned))
    throw new RangeError(
      'no hub bolts to turn round: the file has no part of kind "bolts" that joins the "hubMount"',
    );
  if (one.caliperMirrored && !known.some(({ caliperMirrored }) => caliperMirrored))
    throw new RangeError(
      'the caliper has no "bleedScrew" in the file, and is the same the other way round: nothing to mirror',
    );
  return [one];
}
