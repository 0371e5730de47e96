import type { Corner } from '../../design/schema.ts';
import { type PairTrial, pairFits } from '../../studies/vary/pairTrial.ts';
import type { Tried } from '../../studies/vary/trials.ts';
import type { Figures } from '../figures.ts';
import { poseInWords } from '../pose.ts';

export const trialName = ({ labelA, labelB }: PairTrial): string => `${labelA} ↔ ${labelB}`;

/** The pairs that do not fit, or of which it is not known, worst first. */
export const notFitting = ({ pairs }: Tried): PairTrial[] => pairs.filter((pair) => !pairFits(pair));

/** Where a pair is worst: its pose, or that it never moves. */
export function trialPlace({ moves, worst }: PairTrial, corner: Corner, figures: Figures): string {
  if (!moves) return 'at every pose';
  return worst === undefined ? '' : `at ${poseInWords(corner, worst, figures)}`;
}

/**
 * What stands in the way of a value that does not fit, without a full stop: "Wheel ↔ Upper joint is 0.012 in short of its
 * target, at bump +152.4 mm, ...". Of a pair that touches no shortfall is told: how deep a part reaches into another is
 * not how far it would have to be moved.
 */
export function limitInWords(tried: Tried, corner: Corner, figures: Figures): string {
  const [problem] = tried.problems;
  if (problem !== undefined)
    return `the corner cannot be built: ${problem.path === '' ? '' : `${problem.path} `}${problem.message}`;
  const [worst] = notFitting(tried);
  if (worst === undefined) return 'the suspension locks out in part of its travel and steering';
  const name = trialName(worst);
  const place = trialPlace(worst, corner, figures);
  const where = place === '' ? '' : `, ${place}`;
  if (worst.state === 'touches') return `${name} touches${where}`;
  if (worst.state === 'unknown') return `${name} could not be told`;
  return `${name} is ${figures.boundWithUnit(-worst.leastMarginMm)} short of its target${where}`;
}
