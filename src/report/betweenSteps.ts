import { FAR_MM } from '../sweep/prove.ts';
import { angle, type Figures } from './figures.ts';
import { shownRackMm } from './pose.ts';
import { largest } from './proven.ts';
import type { Checked } from './reportInput.ts';

const largestGap = (values: readonly number[]): number =>
  values.slice(1).reduce((most, value, i) => Math.max(most, Math.abs(value - values[i])), 0);

/** How far apart the steps are, and what holds between them. */
export function spacingInWords(checked: Checked, figures: Figures): string {
  const { design, result, findings } = checked;
  const racks = [...result.steer].map((steer) => shownRackMm(design.corner, steer));
  const widest = largest(result.roadWheelAngleDeg.map(Math.abs));
  const steps = `${result.travelMm.length} of travel, at most ${figures.placeWithUnit(largestGap([...result.travelMm]))} apart, by ${result.steer.length} of steer, at most ${figures.placeWithUnit(largestGap(racks))} of rack apart (wheel angles up to ${angle(widest)})`;
  return findings.lockedOut === undefined
    ? `Clearances are checked at the steps only: ${steps}. What happens between two steps is not proven: parts could come closer there than at either step. Sweep finer where a margin is small.`
    : `Clearances are measured at the steps, ${steps}, and what lies between the steps is proven: ${boundsInWords(checked, figures)} Of a pair that touches only the contact is certain: between steps it may reach deeper than told.`;
}

function boundsInWords(checked: Checked, figures: Figures): string {
  const poses =
    checked.findings.lockedOut?.length === 0
      ? 'at no pose, at a step or between'
      : 'outside the parts where the suspension locks out, at no pose, at a step or between';
  const notBelow = `${poses}, is a pair nearer than its figure under Nowhere below, from which all errors are already taken off.`;
  const widthMm = widestProofMm(checked);
  return widthMm === undefined
    ? notBelow
    : `${notBelow} For a pair that comes within ${figures.givenWithUnit(FAR_MM)} of its target and allowances, the least between its meshes is known to within ${figures.boundWithUnit(widthMm)}; of any other it is proven only that it stays further apart.`;
}

/** The widest gap between what was found and what is proved, of pairs that are closed in on; undefined without any. */
function widestProofMm({ result, findings }: Checked): number | undefined {
  const widths = findings.pairs.flatMap(({ pair, worst, provenMm }) => {
    const { moves, targetMm, allowanceMm } = result.pairs[pair];
    const closedIn = provenMm !== undefined && provenMm < targetMm + allowanceMm + FAR_MM;
    return moves && closedIn && worst !== undefined ? [worst.clearanceMm - provenMm] : [];
  });
  return widths.length === 0 ? undefined : Math.max(...widths);
}

/** How the proof is made, in a sentence or two. */
export const PROOF_IN_WORDS =
  'What lies between the steps is proven by cutting the whole of travel and steering into cells. Over a cell the motion of every part is bounded from the geometry of the suspension, whatever the pose within it, and the two meshes are shown to keep their distance under that motion; a cell in which they are not shown to is halved, and measured at its middle, until every cell is settled. Where that finds less than any step, the pose told is one between steps.';
