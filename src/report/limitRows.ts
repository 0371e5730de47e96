import type { Findings } from '../findings/findings.ts';
import type { LimitFinding } from '../findings/limitFindings.ts';
import { counted, decimal, type Figures, signedAngle } from './figures.ts';
import { shownRackMm, shownWheelAngleDeg } from './pose.ts';
import type { Checked } from './reportInput.ts';

/** A joint or damper as text, the same wherever it is shown. Empty strings where nothing is known. */
export interface LimitRow {
  finding: LimitFinding;
  /** "Upper uniball, tilt". */
  name: string;
  /** With their unit: `28.93°`, `431.59 mm`. Used and proven are rounded up toward what is allowed, left is rounded down. */
  used: string;
  proven: string;
  allowed: string;
  left: string;
  travel: string;
  rack: string;
  wheelAngle: string;
  /** Where the allowed value comes from. */
  from: string;
  /** What would help; empty where it does not bind. */
  advice: string;
}

const KIND_WORDS: Record<LimitFinding['kind'], string> = {
  jointTilt: 'tilt',
  damperClosed: 'shortest',
  damperOpen: 'longest',
};

/** What a state means for a joint or a damper, in the words of the trade. */
export const BINDING_WORDS: Record<LimitFinding['kind'], string> = {
  jointTilt: 'binds',
  damperClosed: 'bottoms out',
  damperOpen: 'tops out',
};

/** "Upper uniball binds", "Damper tops out": of a joint or damper that does. */
export const bindingText = ({ label, kind }: LimitFinding): string => `${label} ${BINDING_WORDS[kind]}`;

/** Rounding of Float64 arithmetic, in hundredths of a degree. */
const NOISE = 1e-6;
const degreesUp = (value: number) => `${decimal(Math.ceil(value * 100 - NOISE) / 100, 2)}°`;
const degreesDown = (value: number) => `${decimal(Math.floor(value * 100 + NOISE) / 100, 2)}°`;

export const limitName = ({ label, kind }: LimitFinding): string => `${label}, ${KIND_WORDS[kind]}`;

/** A tilt or length that is used or proven: rounded toward what is allowed. */
function usedInWords({ kind }: LimitFinding, value: number | undefined, figures: Figures): string {
  if (value === undefined) return '';
  if (kind === 'jointTilt') return degreesUp(value);
  return `${kind === 'damperClosed' ? figures.least(value) : figures.bound(value)} ${figures.unit}`;
}

export const limitUsed = (finding: LimitFinding, figures: Figures): string =>
  usedInWords(finding, finding.used, figures);

export function limitAllowed({ kind, allowed }: LimitFinding, figures: Figures): string {
  if (allowed === undefined) return 'unknown';
  return kind === 'jointTilt' ? degreesDown(allowed) : figures.givenWithUnit(allowed);
}

export function limitLeft({ kind, left }: LimitFinding, figures: Figures): string {
  if (left === undefined) return '';
  return kind === 'jointTilt' ? degreesDown(left) : `${figures.least(left)} ${figures.unit}`;
}

/** Without idle zeros. */
const short = (text: string): string => text.replace(/\.?0+$/, '');

/** "typed", "ball 28.6, housing width 18, bolt 14 mm", "not known: give openLength". */
export function allowedFromInWords({ allowedFrom, kind }: LimitFinding, figures: Figures): string {
  const { how, field, dimensions } = allowedFrom;
  if (how === 'typed') return 'typed';
  if (how === 'missing') return `not known: give ${field}`;
  const sizes = `${dimensions.map(({ name, mm }) => `${name} ${short(figures.given(mm))}`).join(', ')} ${figures.unit}`;
  return kind === 'damperClosed' ? `derived, the least it can be: ${sizes}; give ${field}` : sizes;
}

/** Turning the housing by less is not worth a word, degrees. */
const LEAST_GAIN_DEG = 0.05;

function adviceOf({ state, used, allowed, betterHousing }: LimitFinding): string {
  if (state !== 'binds' || betterHousing === undefined || used === undefined || allowed === undefined)
    return '';
  const { direction, mostTiltDeg } = betterHousing;
  if (mostTiltDeg > used - LEAST_GAIN_DEG) return 'No direction of the housing leaves less tilt.';
  const enough = mostTiltDeg <= allowed ? 'which it allows' : 'still more than it allows';
  return `With housingDirection [${direction.join(', ')}] it tilts ${degreesUp(mostTiltDeg)} at most, ${enough}.`;
}

/** The rows of all joints and dampers, in their order. */
export function limitRows({ design: { corner }, findings }: Checked, figures: Figures): LimitRow[] {
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
      rack: worst === undefined ? '' : figures.signedPlace(shownRackMm(corner, worst.steer)),
      wheelAngle: worst === undefined ? '' : signedAngle(shownWheelAngleDeg(corner, worst.roadWheelAngleDeg)),
      from: allowedFromInWords(finding, figures),
      advice: adviceOf(finding),
    };
  });
}

/** Of a limit that is unknown, without a full stop: "whether Damper tops out is unknown: give its openLength". */
export function unknownInWords(limit: LimitFinding): string {
  const { how, field } = limit.allowedFrom;
  const whether = `whether ${bindingText(limit)}`;
  return how === 'missing' ? `${whether} is unknown: give its ${field}` : `${whether} is not proven`;
}

/** What binds, and what cannot be told of joints and dampers, a sentence each; none where all are clear. */
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
