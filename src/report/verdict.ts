import type { PairFinding, TightSpot } from '../findings/findings.ts';
import { counted, type Figures } from './figures.ts';
import { limitsInWords } from './limitRows.ts';
import { lockOutInWords } from './lockedOut.ts';
import { pairName } from './pairRow.ts';
import { poseInWords } from './pose.ts';
import { provenAtLeastMm } from './proven.ts';
import type { Checked } from './reportInput.ts';

/** What came out, in a few sentences. Says "at the poses checked" where nothing is proved between them. */
export function verdictSentence(checked: Checked, figures: Figures): string {
  const { design, solids, result, findings } = checked;
  const { counts, pairs, unreachableSteps, solvedSteps, lockedOut } = findings;
  const steps = result.poseState.length;
  const everywhere = lockedOut?.length === 0 && counts.unknown === 0;
  const said: string[] = [];
  if (counts.touches > 0) said.push(`${counted(counts.touches, 'pair touches', 'pairs touch')}.`);
  said.push(...limitsInWords(findings));
  if (counts.unknown > 0) said.push(`${counted(counts.unknown, 'pair')} could not be told everywhere.`);
  if (counts.tight > 0)
    said.push(
      `${counted(counts.tight, 'pair has', 'pairs have')} less daylight than wanted${counts.touches > 0 ? '' : `, though nothing ${everywhere ? '' : 'measured '}touches`}.`,
    );
  const where =
    lockedOut === undefined
      ? 'at the poses checked'
      : everywhere
        ? 'at every pose, between the steps too'
        : 'wherever the suspension is shown to reach';
  const short = counts.touches + counts.unknown + counts.tight;
  if (short === 0 && solvedSteps > 0)
    said.push(`${counted(pairs.length, 'pair', 'pairs')} checked: all keep their target ${where}.`);
  const least = leastMargin(pairs);
  if (least !== undefined) {
    const { worst } = least;
    const pair = result.pairs[least.pair];
    const leastMm = pair.moves ? provenAtLeastMm(checked, least) : undefined;
    const proven = leastMm === undefined ? '' : `, nowhere below ${figures.least(leastMm)} ${figures.unit},`;
    const pose = pair.moves ? `at ${poseInWords(design.corner, worst, figures)}` : 'at every pose alike';
    said.push(
      `Least margin: ${pairName(solids, pair)}, clearance ${figures.withErrorAndUnit(worst.clearanceMm, worst.errorMm)}${proven} against a target of ${figures.givenWithUnit(pair.targetMm)}, ${pose}.`,
    );
  }
  if (unreachableSteps.length > 0)
    said.push(`The suspension cannot reach ${unreachableSteps.length} of the ${steps} poses asked for.`);
  const lockOut = lockOutInWords(findings);
  if (lockOut !== '') said.push(lockOut);
  const pending = steps - solvedSteps - unreachableSteps.length;
  if (pending > 0)
    said.push(`The sweep is not complete: ${counted(pending, 'pose is', 'poses are')} still to do.`);
  return said.join(' ');
}

/** The pair with the least margin of those that were measured; undefined where none was within the limit. */
export function leastMargin(
  findings: readonly PairFinding[],
): (PairFinding & { worst: TightSpot }) | undefined {
  let least: (PairFinding & { worst: TightSpot }) | undefined;
  for (const finding of findings) {
    const { worst } = finding;
    if (worst !== undefined && !(least !== undefined && least.worst.marginMm <= worst.marginMm))
      least = { ...finding, worst };
  }
  return least;
}
