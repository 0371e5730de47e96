import type { Corner } from '../../design/schema.ts';
import type { PairState } from '../../findings/findings.ts';
import type { LimitFinding, LimitState } from '../../findings/limitFindings.ts';
import { type PairTrial, pairFits } from '../../studies/vary/pairTrial.ts';
import type { TrialResult } from '../../studies/vary/trials.ts';
import { pairLabelFrom } from '../../sweep/pair.ts';
import type { Figures } from '../figures.ts';
import { bindingText, limitAllowed, limitLeft, limitUsed, unknownInWords } from '../limitRows.ts';
import { poseInWords } from '../pose.ts';

/** Why a value does not fit: a pair, or a limit of a joint or damper. */
export type Obstacle = { kind: 'pair'; pair: PairTrial } | { kind: 'limit'; limit: LimitFinding };

export const obstacleState = (one: Obstacle): PairState | LimitState =>
  one.kind === 'pair' ? one.pair.state : one.limit.state;

const RANK: Record<PairState | LimitState, number> = {
  touches: 0,
  binds: 1,
  tight: 2,
  unknown: 3,
  clear: 4,
  far: 4,
};

/** The pairs and limits that fail or are unknown, worst state first, pairs before limits. */
export function obstaclesOf({ pairs, limits }: TrialResult): Obstacle[] {
  const obstacles: Obstacle[] = [
    ...pairs.filter((pair) => !pairFits(pair)).map((pair) => ({ kind: 'pair' as const, pair })),
    ...limits.filter(({ state }) => state !== 'clear').map((limit) => ({ kind: 'limit' as const, limit })),
  ];
  return obstacles.sort((a, b) => RANK[obstacleState(a)] - RANK[obstacleState(b)]);
}

export const trialName = ({ labelA, labelB }: PairTrial): string => pairLabelFrom(labelA, labelB);

const limitBrief = (limit: LimitFinding): string =>
  limit.state === 'unknown' ? unknownInWords(limit) : bindingText(limit);

/** "Wheel ↔ Upper joint", "Damper tops out", "whether Damper tops out is unknown: give its openLength". */
export const obstacleName = (one: Obstacle): string =>
  one.kind === 'pair' ? trialName(one.pair) : limitBrief(one.limit);

/** Margin, mm or degrees: below 0 if it fails, NaN if unknown. */
export const obstacleLeft = (one: Obstacle): number =>
  one.kind === 'pair' ? one.pair.leastMarginMm : (one.limit.left ?? Number.NaN);

/** Worst pose of an obstacle, or "at every pose" for a fit pair. Empty if no pose is known. */
function obstaclePose(one: Obstacle, corner: Corner, figures: Figures): string {
  if (one.kind === 'pair' && !one.pair.moves) return 'at every pose';
  const { worst } = one.kind === 'pair' ? one.pair : one.limit;
  return worst === undefined ? '' : `at ${poseInWords(corner, worst, figures)}`;
}

/** Line below an obstacle's name: its worst pose, and for a limit its used and allowed values. */
export function obstaclePlace(one: Obstacle, corner: Corner, figures: Figures): string {
  const pose = obstaclePose(one, corner, figures);
  if (one.kind === 'pair') return pose;
  const { limit } = one;
  if (limit.state === 'unknown') return unknownInWords(limit);
  return `${limitUsed(limit, figures)}, ${limitAllowed(limit, figures)} allowed, ${pose}`;
}

/**
 * Why a value does not fit, without a full stop: "Wheel ↔ Upper joint is 0.012 in short of its target, at bump +152.4 mm,
 * ...". A pair that touches has no shortfall: the depth of an overlap is not the distance that a part must move to clear.
 */
export function reasonInWords(tried: TrialResult, corner: Corner, figures: Figures): string {
  const [problem] = tried.problems;
  if (problem !== undefined)
    return `the corner cannot be built: ${problem.path === '' ? '' : `${problem.path} `}${problem.message}`;
  const [worst] = obstaclesOf(tried);
  if (worst === undefined) return 'the suspension locks out in part of its travel and steering';
  const name = obstacleName(worst);
  const pose = obstaclePose(worst, tried.corner ?? corner, figures);
  const where = pose === '' ? '' : `, ${pose}`;
  if (worst.kind === 'limit')
    return worst.limit.state === 'unknown'
      ? name
      : `${name}, ${limitLeft(worst.limit, figures)} left${where}`;
  const { pair } = worst;
  if (pair.state === 'touches') return `${name} touches${where}`;
  if (pair.state === 'unknown') return `${name} is unknown`;
  return `${name} is ${figures.boundWithUnit(-pair.leastMarginMm)} short of its target${where}`;
}
