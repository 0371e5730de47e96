import type { Corner } from '../design/schema.ts';
import type { Findings } from '../findings/findings.ts';
import type { LimitFinding } from '../findings/limitFindings.ts';
import { hoseToBuyMm } from '../sweep/allowedLimits.ts';
import { isAngleLimit } from '../sweep/limit.ts';
import { counted, decimal, type Figures, signedAngle } from './figures.ts';
import { shownWheelAngleDeg } from './pose.ts';
import type { Checked } from './reportInput.ts';
import { shownInput, steeringFigures } from './steering.ts';

/** A joint or damper as text for every table. A string is empty if its value is unknown. */
export interface LimitRow {
  finding: LimitFinding;
  /** "Upper uniball, tilt". */
  name: string;
  /** With their unit: `28.93°`, `431.59 mm`. `used` and `proven` are rounded toward `allowed`, `left` is rounded down. */
  used: string;
  proven: string;
  allowed: string;
  left: string;
  travel: string;
  steer: string;
  wheelAngle: string;
  /** Origin of the allowed value. */
  from: string;
  /** How to reduce the tilt; empty unless it binds. */
  advice: string;
}

const KIND_WORDS: Record<LimitFinding['kind'], string> = {
  jointTilt: 'tilt',
  damperClosed: 'shortest',
  damperOpen: 'longest',
  shaftInner: 'angle of the inner joint',
  shaftOuter: 'angle of the outer joint',
  shaftIn: 'plunge in',
  shaftOut: 'plunge out',
  hoseLength: 'straight distance',
};

/** Verb for a limit that is exceeded. */
const BINDING_WORDS: Record<LimitFinding['kind'], string> = {
  jointTilt: 'binds',
  damperClosed: 'bottoms out',
  damperOpen: 'tops out',
  shaftInner: 'binds at its inner joint',
  shaftOuter: 'binds at its outer joint',
  shaftIn: 'bottoms out',
  shaftOut: 'pulls apart',
  hoseLength: 'is too short',
};

/** Title of the list of limits, by what the corner has. */
export const limitTitle = ({ driveShaft, brakeHose }: Corner): string =>
  ['Joints and damper', ...(driveShaft ? ['drive shaft'] : []), ...(brakeHose ? ['brake hose'] : [])].join(
    ', ',
  );

/** Title of the column that names a limit. */
export const limitHeading = ({ driveShaft, brakeHose }: Corner): string =>
  driveShaft || brakeHose ? 'Joint, damper, shaft or hose' : 'Joint or damper';

/** What can fail: "Pair, joint or damper". */
export const failingHeading = (corner: Corner): string => `Pair, ${limitHeading(corner).toLowerCase()}`;

/** "Brake hose: buy at least 412.3 mm, slack included."; none without a brake hose. */
export function hoseSentences(
  { design: { corner }, findings }: Pick<Checked, 'design' | 'findings'>,
  figures: Figures,
): string[] {
  const { brakeHose } = corner;
  const limit = findings.limits.find(({ kind }) => kind === 'hoseLength');
  const least = brakeHose && limit && hoseToBuyMm(brakeHose, limit);
  return least === undefined
    ? []
    : [`Brake hose: buy at least ${figures.boundWithUnit(least)} between its ends, slack included.`];
}

/** "Upper uniball binds", "Damper tops out". */
export const bindingText = ({ label, kind }: LimitFinding): string => `${label} ${BINDING_WORDS[kind]}`;

/** Rounding of Float64 arithmetic, in hundredths of a degree. */
const NOISE = 1e-6;
const degreesUp = (value: number) => `${decimal(Math.ceil(value * 100 - NOISE) / 100, 2)}°`;
const degreesDown = (value: number) => `${decimal(Math.floor(value * 100 + NOISE) / 100, 2)}°`;

export const limitName = ({ label, kind }: LimitFinding): string => `${label}, ${KIND_WORDS[kind]}`;

/** A used or proven tilt or length, rounded toward the allowed one. */
function usedInWords({ kind }: LimitFinding, value: number | undefined, figures: Figures): string {
  if (value === undefined) return '';
  if (isAngleLimit(kind)) return degreesUp(value);
  return `${kind === 'damperClosed' ? figures.least(value) : figures.bound(value)} ${figures.unit}`;
}

export const limitUsed = (finding: LimitFinding, figures: Figures): string =>
  usedInWords(finding, finding.used, figures);

export function limitAllowed({ kind, allowed }: LimitFinding, figures: Figures): string {
  if (allowed === undefined) return 'unknown';
  return isAngleLimit(kind) ? degreesDown(allowed) : figures.givenWithUnit(allowed);
}

export function limitLeft({ kind, left }: LimitFinding, figures: Figures): string {
  if (left === undefined) return '';
  return isAngleLimit(kind) ? degreesDown(left) : `${figures.least(left)} ${figures.unit}`;
}

/** The number without trailing zeros. */
const short = (text: string): string => text.replace(/\.?0+$/, '');

/** "typed", "ball 28.6, housing width 18, bolt 14 mm", "unknown: give openLength". */
export function allowedFromInWords({ allowedFrom, kind }: LimitFinding, figures: Figures): string {
  const { how, field, dimensions } = allowedFrom;
  if (how === 'typed') return 'typed';
  if (how === 'missing') return `unknown: give ${field}`;
  const sizes = `${dimensions.map(({ name, mm }) => `${name} ${short(figures.given(mm))}`).join(', ')} ${figures.unit}`;
  return kind === 'damperClosed' ? `derived, a lower bound: ${sizes}; give ${field}` : sizes;
}

/** A smaller gain from another housing direction is not shown, degrees. */
const LEAST_GAIN_DEG = 0.05;

function adviceOf({ state, used, allowed, betterHousing }: LimitFinding): string {
  if (state !== 'binds' || betterHousing === undefined || used === undefined || allowed === undefined)
    return '';
  const { direction, mostTiltDeg } = betterHousing;
  if (mostTiltDeg > used - LEAST_GAIN_DEG) return 'No other direction of the housing gives less tilt.';
  const enough = mostTiltDeg <= allowed ? 'which is allowed' : 'still more than allowed';
  return `With housingDirection [${direction.join(', ')}] it tilts at most ${degreesUp(mostTiltDeg)}, ${enough}.`;
}

/** The rows of all joints and dampers, in their order. */
export function limitRows(
  { design: { corner }, findings }: Pick<Checked, 'design' | 'findings'>,
  figures: Figures,
): LimitRow[] {
  return findings.limits.map((finding) => {
    const { worst } = finding;
    return {
      finding,
      name: limitName(finding),
      used: worst === undefined ? 'unknown' : limitUsed(finding, figures),
      proven: finding.proven === undefined ? 'not proven' : usedInWords(finding, finding.proven, figures),
      allowed: limitAllowed(finding, figures),
      left: limitLeft(finding, figures),
      travel: worst === undefined ? '' : figures.signedPlace(worst.travelMm),
      steer:
        worst === undefined ? '' : steeringFigures(corner, figures).signed(shownInput(corner, worst.steer)),
      wheelAngle: worst === undefined ? '' : signedAngle(shownWheelAngleDeg(corner, worst.roadWheelAngleDeg)),
      from: allowedFromInWords(finding, figures),
      advice: adviceOf(finding),
    };
  });
}

/** An unknown limit, without a full stop: "whether Damper tops out is unknown: give its openLength". */
export function unknownInWords(limit: LimitFinding): string {
  const { how, field } = limit.allowedFrom;
  const whether = `whether ${bindingText(limit)}`;
  return how === 'missing' ? `${whether} is unknown: give its ${field}` : `${whether} is not proven`;
}

/** A sentence for the joints that bind, and for each damper that binds and each unknown limit; none if all are clear. */
export function limitsInWords({ limits }: Pick<Findings, 'limits'>): string[] {
  const binding = limits.filter(({ state }) => state === 'binds');
  const joints = binding.filter(({ kind }) => kind === 'jointTilt').map(({ label }) => label);
  return [
    ...(joints.length === 0
      ? []
      : [`${counted(joints.length, 'joint binds', 'joints bind')}: ${joints.join(', ')}.`]),
    ...binding.filter(({ kind }) => kind !== 'jointTilt').map((limit) => `${bindingText(limit)}.`),
    ...limits
      .filter(({ state }) => state === 'unknown')
      .map((limit) => `W${unknownInWords(limit).slice(1)}.`),
  ];
}
