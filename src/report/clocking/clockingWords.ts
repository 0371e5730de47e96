import type { LimitFinding } from '../../findings/limitFindings.ts';
import type { Mounting } from '../../studies/clocking/apply.ts';
import type { LeastMargin } from '../../studies/clocking/axis.ts';
import type { CaliperFigures } from '../../studies/clocking/figures.ts';
import type { ArmDistance } from '../../studies/clocking/lowerArm.ts';
import { choiceOf, type MountingChoice } from '../../studies/clocking/mountingChoice.ts';
import { type Clockings, MAX_MARGIN_MM } from '../../studies/clocking/studyPairs.ts';
import type { SweptCandidate } from '../../studies/clocking/sweepCandidates.ts';
import type { Unmet } from '../../studies/clocking/unmet.ts';
import type { UnsplitName, WantName } from '../../studies/clocking/wants.ts';
import { pairLabelFrom } from '../../sweep/pair.ts';
import { angle, type Figures, signedAngle } from '../figures.ts';
import { limitsInWords } from '../limitRows.ts';

/** Returns the name of a pair of a study by its index. */
export type NameOf = (pair: number) => string;

const WANTS: Record<Exclude<WantName, UnsplitName>, string> = {
  bleedWithinDeg: "the bleed screw within the required angle of straight above the caliper's middle",
  caliperPlace: 'the caliper on the required side of the axle',
  caliperRange: 'the caliper in its allowed range',
  hubRange: 'the hub in its allowed range',
};

const OWN_PLATES: Record<string, string> = {
  upperLeg: 'the upper leg',
  lowerLeg: 'the lower leg',
  steeringArm: 'the steering arm',
};

function wantInWords(want: WantName): string {
  const [, mount, plate] = /^unsplit:(hub|caliper):(.*)$/.exec(want) ?? [];
  if (mount === undefined) return WANTS[want as keyof typeof WANTS];
  return `the bolts of the ${mount} all on one side of ${OWN_PLATES[plate] ?? `plate ${plate}`}`;
}

/** Each mounting of a corner, relative to its file. */
export const MOUNTING_WORDS: Record<Exclude<MountingChoice, 'all'>, string> = {
  drawn: 'as drawn',
  mirrored: 'caliper mirrored',
  'bolts-turned': 'hub bolts turned round',
  both: 'caliper mirrored, hub bolts turned round',
};

export const mountingInWords = (mounting: Mounting): string => MOUNTING_WORDS[choiceOf(mounting)];

/** "caliper at +61.0°, hub at −45.0°". */
export const clockingsInWords = ({ caliperDeg, hubDeg }: Clockings): string =>
  `caliper at ${signedAngle(caliperDeg)}, hub at ${signedAngle(hubDeg)}`;

/** A margin with the pair that it belongs to. */
export function marginInWords(nameOf: NameOf, least: LeastMargin, figures: Figures): string {
  if (Number.isNaN(least.marginMm)) return `unknown: ${nameOf(least.limitedBy)}`;
  if (least.marginMm === Number.POSITIVE_INFINITY) return `more than ${figures.givenWithUnit(MAX_MARGIN_MM)}`;
  const margin = figures.signedWithError(least.marginMm, least.errorMm);
  return `${margin} ${figures.unit}, ${nameOf(least.limitedBy)}`;
}

/**
 * The joints and dampers that bind or are unknown; no clocking changes them. Undefined if all are clear. `over`: the poses
 * of `limits`.
 */
export function unchangingLimits(
  limits: readonly LimitFinding[],
  over: 'ride height' | 'travel and lock',
): string | undefined {
  const sentences = limitsInWords({ limits });
  if (sentences.length === 0) return undefined;
  return `At every clocking, ${over === 'ride height' ? 'at' : 'over'} ${over}: ${sentences.join(' ')}`;
}

/** "118.9 mm behind the axle": place of the middle of a caliper. */
export function aheadInWords({ aheadMm }: CaliperFigures, figures: Figures): string {
  if (Math.abs(aheadMm) < IN_LINE_MM) return 'in line with the axle';
  return `${figures.placeWithUnit(Math.abs(aheadMm))} ${aheadMm > 0 ? 'ahead of' : 'behind'} the axle`;
}

const IN_LINE_MM = 0.05;

/** The angle of a caliper's bleed screw from the top, and the distance of the caliper to the lower arm, if it has them. */
export const bleedAndArmLines = (
  { bleedScrewDeg, bleedBelowTopMm }: CaliperFigures,
  arm: ArmDistance | undefined,
  figures: Figures,
): string[] => [
  ...(bleedScrewDeg === undefined || bleedBelowTopMm === undefined
    ? []
    : [
        `bleed screw ${angle(Math.abs(bleedScrewDeg))} from straight above the caliper's middle, its foot ` +
          `${figures.placeWithUnit(bleedBelowTopMm)} lower than at the top`,
      ]),
  ...(arm === undefined
    ? []
    : [`caliper to lower arm: ${figures.withErrorAndUnit(arm.clearanceMm, arm.errorMm)}`]),
];

/** Requirements that no clocking meets, and the clocking that misses them least, indented. `mounted`: its mounting, if no mounting meets them. */
export function unmetLines(
  nameOf: NameOf,
  { wants, contradiction, best }: Unmet,
  figures: Figures,
  mounted?: string,
): string[] {
  const requirements = wants.map(wantInWords).join(' and ');
  const no = mounted === undefined ? 'No clocking' : 'No clocking of any mounting';
  if (contradiction || best === undefined)
    return [
      wants.length === 1
        ? `${no} has ${requirements}, clear or not.`
        : `These requirements contradict each other: ${requirements}`,
    ];
  const { clockings, least } = best;
  const { marginMm, errorMm, limitedBy } = least;
  const missingMm = marginMm === Number.POSITIVE_INFINITY ? 0 : Math.max(0, errorMm - marginMm);
  const forbids = Number.isNaN(marginMm)
    ? `${nameOf(limitedBy)} is unknown`
    : missingMm === 0
      ? 'every measured pair clears there, but by too little to prove it'
      : `${nameOf(limitedBy)}, ${figures.bound(missingMm)} ${figures.unit} missing`;
  const where = `${mounted === undefined ? '' : `${mounted}, `}${clockingsInWords(clockings)}`;
  return [
    wants.length === 0 ? `${no} clears.` : `${no} clears with ${requirements}.`,
    `  nearest: ${where}: ${forbids}`,
  ];
}

/** Worst margin of a candidate over all travel and lock, with its lower bound if the proof did not close in on it. */
export function worstInWords(
  { worst, findings, isProved }: SweptCandidate<Clockings>,
  figures: Figures,
): string {
  const { counts, unreachableSteps } = findings;
  const open = !isProved || unreachableSteps.length > 0 ? ', in part unknown' : '';
  if (worst === undefined) return `all far${open}`;
  const { marginMm, errorMm, leastMm, names } = worst;
  const touches = counts.touches > 0 ? 'touches: ' : '';
  const isClose = leastMm === undefined || marginMm - errorMm - leastMm < CLOSE_MM;
  const proved = touches !== '' || isClose ? '' : `, nowhere below ${figures.least(leastMm)}`;
  const margin = figures.signedWithError(marginMm, errorMm);
  return `${touches}${margin} ${figures.unit}${proved}, ${pairLabelFrom(...names)}${open}`;
}

/** A lower bound this close to the worst margin found is not shown, mm. */
const CLOSE_MM = 0.01;
