import { type AlignmentFigures, alignmentChange } from './alignmentFigures.ts';
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

/** Size of the changes, mm; a degree counts as 1 mm, which it is 57 mm from its axis. */
const sizeOf = ({ changes }: Ranked): number =>
  changes.reduce((sum, { choices, to }) => sum + Math.abs(to - choices.from), 0);

/**
 * Ranks remedies, the best first: those after which everything clears; then by the number of pairs that newly fail or
 * become unknown; then by the change of the angles of alignment and lock, of the lengths of alignment and travel, and of the value itself.
 */
export function ranked<R extends Ranked>(remedies: readonly R[], before: AlignmentFigures): R[] {
  const keyOf = (remedy: R): number[] => {
    const { degrees, mm } = alignmentChange(before, remedy.alignment);
    return [
      clearsAll(remedy) ? 0 : 1,
      remedy.newlyFailing.length + remedy.newlyUnknown.length,
      Math.round(degrees / SAME_DEG),
      Math.round(mm / SAME_MM),
      sizeOf(remedy),
    ];
  };
  const keys = new Map(remedies.map((remedy) => [remedy, keyOf(remedy)]));
  return [...remedies].sort((one, other) => {
    const [a, b] = [keys.get(one) as number[], keys.get(other) as number[]];
    const at = a.findIndex((value, k) => value !== b[k]);
    return at < 0 ? 0 : a[at] - b[at];
  });
}
