import type { Design } from '../design/design.ts';
import type { PairFinding, PairState, TightSpot } from '../findings/findings.ts';
import { pairLabel } from '../sweep/pair.ts';
import { inWords } from '../units/plainText.ts';
import { stateInWords } from './content.ts';
import { counted, type Figures } from './figures.ts';
import { assumedOf } from './inputSection.ts';
import { limitsInWords } from './limitRows.ts';
import { lockOutInWords } from './lockedOut.ts';
import { poseInWords } from './pose.ts';
import { provenAtLeastMm } from './proven.ts';
import type { Checked } from './reportInput.ts';

/** The state of a corner; for a clear corner also the number of its assumed values. */
export function verdictWords(state: PairState, design: Design): string {
  const count = assumedOf(design).length;
  const words = stateInWords(state);
  return state === 'clear' && count > 0 ? `${words}, with ${counted(count, 'assumed value')}` : words;
}

/** Summary of the findings in a few sentences. */
export function verdictSentence(checked: Checked, figures: Figures): string {
  const { design, solids, result, findings } = checked;
  const { counts, pairs, unreachableSteps, solvedSteps, lockedOut } = findings;
  const steps = result.poseState.length;
  const everywhere = lockedOut?.length === 0 && counts.unknown === 0;
  const sentences: string[] = [];
  if (counts.touches > 0) sentences.push(`${counted(counts.touches, 'pair touches', 'pairs touch')}.`);
  sentences.push(...limitsInWords(findings));
  if (counts.unknown > 0)
    sentences.push(`${counted(counts.unknown, 'pair is', 'pairs are')} unknown at some poses.`);
  if (counts.tight > 0)
    sentences.push(
      `${counted(counts.tight, 'pair misses its target', 'pairs miss their target')}${counts.touches > 0 ? '' : `; no ${everywhere ? '' : 'measured '}pair touches`}.`,
    );
  const where =
    lockedOut === undefined
      ? 'at the poses checked'
      : everywhere
        ? 'at every pose, at and between the steps'
        : 'at every pose that the suspension is shown to reach';
  const short = counts.touches + counts.unknown + counts.tight;
  if (short === 0 && solvedSteps > 0)
    sentences.push(`${counted(pairs.length, 'pair', 'pairs')} checked; all keep their target ${where}.`);
  const least = leastMargin(pairs);
  if (least !== undefined) {
    const { worst } = least;
    const pair = result.pairs[least.pair];
    const leastMm = pair.moves ? provenAtLeastMm(checked, least) : undefined;
    const proven = leastMm === undefined ? '' : `, nowhere below ${figures.least(leastMm)} ${figures.unit},`;
    const pose = pair.moves ? `at ${poseInWords(design.corner, worst, figures)}` : 'at every pose';
    sentences.push(
      `Least margin: ${pairLabel(solids, pair)}, clearance ${figures.withErrorAndUnit(worst.clearanceMm, worst.errorMm)}${proven} against a target of ${figures.givenWithUnit(pair.targetMm)}, ${pose}.`,
    );
  }
  if (unreachableSteps.length > 0)
    sentences.push(
      `The suspension cannot reach ${unreachableSteps.length} of the ${steps} poses of the sweep.`,
    );
  const lockOut = lockOutInWords(findings);
  if (lockOut !== '') sentences.push(lockOut);
  const pending = steps - solvedSteps - unreachableSteps.length;
  if (pending > 0)
    sentences.push(
      `The sweep is not complete: ${counted(pending, 'pose is', 'poses are')} not measured yet.`,
    );
  const assumed = assumedSentence(checked);
  if (assumed !== '') sentences.push(assumed);
  return sentences.join(' ');
}

/** Largest number of pairs, and of values of each part, that `assumedSentence` names. */
const MOST_PAIRS = 3;
const MOST_VALUES = 4;

/** Number of assumed values and suspension points, and the assumed values of the tightest pairs to measure first; empty if none is assumed. */
function assumedSentence({ design, solids, result, findings }: Checked): string {
  const assumed = assumedOf(design);
  if (assumed.length === 0) return '';
  const points = Object.keys(design.corner.suspension.hardpoints).length;
  const assumedPoints = assumed.filter(({ path }) => path.startsWith('suspension.hardpoints.')).length;
  const tightest = findings.pairs.filter(({ worst }) => worst !== undefined).slice(0, MOST_PAIRS);
  const partIndices = tightest.flatMap(({ pair }) =>
    [result.pairs[pair].a, result.pairs[pair].b].map((solid) => solids[solid].partIndex),
  );
  const named = [...new Set(partIndices)].flatMap((index) => {
    const start = `parts[${index}].`;
    const fields = assumed
      .filter(({ path, isMeasurable }) => isMeasurable && path.startsWith(start))
      .map(({ path }) => path.slice(start.length).split('.').map(inWords).join(' '));
    if (fields.length === 0) return [];
    const { id, label } = design.corner.parts[index];
    const more = fields.length > MOST_VALUES ? ` and ${fields.length - MOST_VALUES} more` : '';
    return [`${label ?? id} (${fields.slice(0, MOST_VALUES).join(', ')}${more})`];
  });
  const pointsText =
    assumedPoints === 0
      ? ''
      : assumedPoints === points
        ? ', including every suspension point'
        : `, including ${assumedPoints} of ${points} suspension points`;
  const first = named.length === 0 ? '' : ` Measure first, for the tightest pairs: ${named.join('; ')}.`;
  return `${counted(assumed.length, 'value is', 'values are')} assumed${pointsText}.${first}`;
}

/** The measured pair with the least margin; undefined if none is within the limit. */
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
