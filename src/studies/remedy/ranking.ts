import type { AlignmentFigures } from './alignmentFigures.ts';
import type { Change } from './changedFile.ts';
import type { Verified } from './verify.ts';

/** What a remedy is ranked by. */
export interface Ranked
  extends Pick<Verified, 'failing' | 'newlyFailing' | 'newlyUnknown' | 'binding' | 'alignment'> {
  changes: readonly Change[];
}

/** Alignments that differ by less are ranked as equal: as fine as a workshop sets them. No source. */
const SAME_DEG = 0.05;
const SAME_MM = 1;

/** Whether no other pair touches, is tight or has become unknown, and no joint or damper binds. */
export const clearsAll = ({ failing, newlyUnknown, binding }: Ranked): boolean =>
  failing.length + newlyUnknown.length + binding.length === 0;

/** Sum of the changes of camber, toe and toe over travel, degrees; infinite if the last is not known. */
const angleChange = (one: AlignmentFigures, other: AlignmentFigures): number =>
  one.toeChangeDeg === undefined || other.toeChangeDeg === undefined
    ? Number.POSITIVE_INFINITY
    : Math.abs(one.camberDeg - other.camberDeg) +
      Math.abs(one.toeDeg - other.toeDeg) +
      Math.abs(one.toeChangeDeg - other.toeChangeDeg);

/** Sum of the changes of scrub radius and half track, mm. */
const placeChange = (one: AlignmentFigures, other: AlignmentFigures): number =>
  Math.abs(one.scrubRadiusMm - other.scrubRadiusMm) + Math.abs(one.halfTrackMm - other.halfTrackMm);

/** Size of the changes, mm; a degree counts as 1 mm, which it is 57 mm from its axis. */
const sizeOf = ({ changes }: Ranked): number =>
  changes.reduce((sum, { choices, to }) => sum + Math.abs(to - choices.from), 0);

/**
 * Ranks remedies, the best first: those after which everything clears; then by the number of pairs that newly fail or
 * become unknown; then by the change of the alignment's angles, of scrub radius and track, and by the size of the change.
 */
export function ranked<R extends Ranked>(remedies: readonly R[], before: AlignmentFigures): R[] {
  const keyOf = (remedy: R): number[] => [
    clearsAll(remedy) ? 0 : 1,
    remedy.newlyFailing.length + remedy.newlyUnknown.length,
    Math.round(angleChange(before, remedy.alignment) / SAME_DEG),
    Math.round(placeChange(before, remedy.alignment) / SAME_MM),
    sizeOf(remedy),
  ];
  const keys = new Map(remedies.map((remedy) => [remedy, keyOf(remedy)]));
  return [...remedies].sort((one, other) => {
    const [a, b] = [keys.get(one) as number[], keys.get(other) as number[]];
    const at = a.findIndex((value, k) => value !== b[k]);
    return at < 0 ? 0 : a[at] - b[at];
  });
}
