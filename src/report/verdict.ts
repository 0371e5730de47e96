import type { PairFinding, TightSpot } from '../findings/findings.ts';
import { counted, type Figures } from './figures.ts';
import { pairName } from './pairRow.ts';
import { poseInWords } from './pose.ts';
import type { Checked } from './reportInput.ts';

/** What came out, in one to three sentences. Says "at the poses checked", because between them nothing is proven. */
export function verdictSentence({ design, solids, result, findings }: Checked, figures: Figures): string {
  const { counts, pairs, unreachableSteps, solvedSteps } = findings;
  const steps = result.poseState.length;
  const said: string[] = [];
  if (counts.touches > 0) said.push(`${counted(counts.touches, 'pair touches', 'pairs touch')}.`);
  if (counts.unknown > 0) said.push(`${counted(counts.unknown, 'pair')} could not be told everywhere.`);
  if (counts.tight > 0)
    said.push(
      `${counted(counts.tight, 'pair has', 'pairs have')} less daylight than wanted${counts.touches > 0 ? '' : ', though nothing measured touches'}.`,
    );
  const short = counts.touches + counts.unknown + counts.tight;
  if (short === 0 && solvedSteps > 0)
    said.push(
      `${counted(pairs.length, 'pair', 'pairs')} checked: all keep their target at the poses checked.`,
    );
  const least = leastMargin(pairs);
  if (least !== undefined) {
    const { worst } = least;
    const pair = result.pairs[least.pair];
    const where = pair.moves ? `at ${poseInWords(design.corner, worst, figures)}` : 'at every pose alike';
    said.push(
      `Least margin: ${pairName(solids, pair)}, clearance ${figures.withError(worst.clearanceMm, worst.errorMm)} ${figures.unit} against a target of ${figures.givenWithUnit(pair.targetMm)}, ${where}.`,
    );
  }
  if (unreachableSteps.length > 0)
    said.push(`The suspension cannot reach ${unreachableSteps.length} of the ${steps} poses asked for.`);
  const pending = steps - solvedSteps - unreachableSteps.length;
  if (pending > 0)
    said.push(`The sweep is not complete: ${counted(pending, 'pose is', 'poses are')} still to do.`);
  return said.join(' ');
}

/** The pair with the least margin of those that were measured; undefined where none was within the limit. */
export function leastMargin(
  findings: readonly PairFinding[],
): { pair: number; worst: TightSpot } | undefined {
  let least: { pair: number; worst: TightSpot } | undefined;
  for (const { pair, worst } of findings) {
    if (worst !== undefined && !(least !== undefined && least.worst.marginMm <= worst.marginMm))
      least = { pair, worst };
  }
  return least;
}
