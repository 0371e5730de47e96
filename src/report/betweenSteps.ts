import { FAR_MM } from '../proof/prove.ts';
import { angle, type Figures } from './figures.ts';
import { largest } from './proven.ts';
import type { Checked } from './reportInput.ts';
import { shownInput, steeringFigures } from './steering.ts';

const largestGap = (values: readonly number[]): number =>
  values.slice(1).reduce((most, value, i) => Math.max(most, Math.abs(value - values[i])), 0);

/** Spacing of the steps, and whether the results hold between them, in sentences. */
export function spacingInWords(checked: Checked, figures: Figures): string {
  const { design, result, findings } = checked;
  const inputs = [...result.steer].map((steer) => shownInput(design.corner, steer));
  const { noun, withUnit } = steeringFigures(design.corner, figures);
  const widest = largest(result.roadWheelAngleDeg.map(Math.abs));
  const steps = `${result.travelMm.length} of travel, at most ${figures.placeWithUnit(largestGap([...result.travelMm]))} apart, by ${result.steer.length} of steer, at most ${withUnit(largestGap(inputs))} of ${noun} apart (wheel angles up to ${angle(widest)})`;
  return findings.lockedOut === undefined
    ? `Clearances are checked at the steps only: ${steps}. What happens between two steps is not proven: parts can come closer there than at either step. If a margin is small, sweep with more steps.`
    : `Clearances are measured at the steps: ${steps}. The poses between the steps are proven: ${boundsInWords(checked, figures)} For a pair that touches, only the contact is certain: it may be deeper between steps than shown.`;
}

function boundsInWords(checked: Checked, figures: Figures): string {
  const poses =
    checked.findings.lockedOut?.length === 0
      ? 'at no pose, at a step or between steps,'
      : 'outside the parts where the suspension locks out, at no pose, at a step or between steps,';
  const notBelow = `${poses} is a pair closer than its figure under Nowhere below. All errors are already subtracted from that figure.`;
  const widthMm = widestProofMm(checked);
  return widthMm === undefined
    ? notBelow
    : `${notBelow} For a pair that comes within ${figures.givenWithUnit(FAR_MM)} of its target and allowances, the least distance between its meshes is known to within ${figures.boundWithUnit(widthMm)}. Any other pair is only proven to stay further apart.`;
}

/** Largest interval between proven bound and least distance found, of pairs near their target, mm; undefined without any. */
function widestProofMm({ result, findings }: Checked): number | undefined {
  const widths = findings.pairs.flatMap(({ pair, worst, provenMm }) => {
    const { moves, targetMm, allowanceMm } = result.pairs[pair];
    const closedIn = provenMm !== undefined && provenMm < targetMm + allowanceMm + FAR_MM;
    return moves && closedIn && worst !== undefined ? [worst.clearanceMm - provenMm] : [];
  });
  return widths.length === 0 ? undefined : Math.max(...widths);
}

/** How the proof works, in sentences. */
export const PROOF_IN_WORDS =
  'The proof divides all travel and steering into cells. In each cell it bounds the motion of every part from the geometry of the suspension, and checks that the two meshes keep their distance under that motion. If this is not shown for a cell, the pair is measured at the middle of the cell and the cell is halved, until every cell is settled. If a middle has less clearance than every step, it is reported as the worst pose.';
