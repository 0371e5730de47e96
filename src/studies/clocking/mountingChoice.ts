import type { Design } from '../../design/design.ts';
import { type Mounting, mountingsOf } from './apply.ts';

/** The mountings to study: one of them, or all that the corner allows. */
export const MOUNTING_CHOICES = ['drawn', 'mirrored', 'bolts-turned', 'both', 'all'] as const;
export type MountingChoice = (typeof MOUNTING_CHOICES)[number];

const ONE: Record<Exclude<MountingChoice, 'all'>, Mounting> = {
  drawn: { caliperMirrored: false, headsTurned: false },
  mirrored: { caliperMirrored: true, headsTurned: false },
  'bolts-turned': { caliperMirrored: false, headsTurned: true },
  both: { caliperMirrored: true, headsTurned: true },
};

/** The name of a mounting; never `all`. */
export const choiceOf = ({ caliperMirrored, headsTurned }: Mounting): Exclude<MountingChoice, 'all'> => {
  if (caliperMirrored) return headsTurned ? 'both' : 'mirrored';
  return headsTurned ? 'bolts-turned' : 'drawn';
};

/**
 * The mountings of a choice, that of the file first. Throws a RangeError for a mounting that the corner does not
 * have: a caliper without a bleed screw is its own mirror image, and hub bolts must be in the file to be turned.
 */
export function mountingsFor(design: Design, choice: MountingChoice): Mounting[] {
  const known = mountingsOf(design);
  if (choice === 'all') return known;
  const one = ONE[choice];
  if (one.headsTurned && !known.some(({ headsTurned }) => headsTurned))
    throw new RangeError(
      'the file has no hub bolts to turn: add a part of kind "bolts" that joins the "hubMount"',
    );
  if (one.caliperMirrored && !known.some(({ caliperMirrored }) => caliperMirrored))
    throw new RangeError('the caliper has no "bleedScrew" in the file, so mirroring does not change it');
  return [one];
}
