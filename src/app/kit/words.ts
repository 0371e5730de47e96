import type { Corner } from '../../design/schema.ts';
import { shownSteer } from '../../design/side.ts';
import type { PairState } from '../../findings/findings.ts';
import type { LimitFinding, LimitState } from '../../findings/limitFindings.ts';
import { decimal, type Figures, type LengthUnit, MM_PER_UNIT } from '../../report/figures.ts';
import { bindingText } from '../../report/limitRows.ts';
import { type SteeringFigures, shownInput, steeringFigures } from '../../report/steering.ts';
import { farInWords } from '../../report/treatment.ts';
import type { Pair } from '../../sweep/pair.ts';
import { formatInches, type InchDenominator } from '../../units/formatLength.ts';

export { pairLabel } from '../../sweep/pair.ts';

/** Words for the states on screen. */
export const STATE_WORDS: Record<PairState | LimitState, string> = {
  touches: 'touches',
  binds: 'binds',
  tight: 'tight',
  clear: 'clear',
  far: 'far',
  unknown: 'unknown',
};

/** "2 bind, 1 unknown, 4 clear": the states with a count above 0. */
export const limitCountsText = (counts: Record<LimitState, number>): string =>
  (
    [
      ['binds', counts.binds === 1 ? 'binds' : 'bind'],
      ['unknown', 'unknown'],
      ['clear', 'clear'],
    ] as const
  )
    .filter(([state]) => counts[state] > 0)
    .map(([state, word]) => `${counts[state]} ${word}`)
    .join(', ');

/** One text for each limit that binds: "Upper uniball binds", "Damper tops out". */
export const bindingTexts = (limits: readonly LimitFinding[]): string[] =>
  limits.filter(({ state }) => state === 'binds').map(bindingText);

/** State of a pair in words; for joined parts that are far elsewhere: "joined; nothing else within 60 mm". */
export const stateText = (
  state: PairState,
  pair: Pick<Pair, 'zones'>,
  limitMm: number,
  figures: Figures,
): string => (state === 'far' ? farInWords([pair], limitMm, figures) : STATE_WORDS[state]);

/** A number without trailing zero decimals: `−70`, `+12.5`. */
const short = (text: string) => text.replace(/\.0+$/, '');

/** Travel without its unit: "bump +31", "droop −70", "ride height". */
export function travelBrief(travelMm: number, figures: Figures): string {
  const amount = short(figures.signedPlace(travelMm));
  if (Number(amount) === 0) return 'ride height';
  return `${travelMm > 0 ? 'bump' : 'droop'} ${amount}`;
}

/** Steering input as shown, positive to the left, without its unit: "rack +60", "straight ahead". */
function steeringBrief(input: number, { noun, signed }: SteeringFigures): string {
  const amount = short(signed(input));
  return Number(amount) === 0 ? 'straight ahead' : `${noun} ${amount}`;
}

/** Pose in words: "droop −70, rack +60 mm". */
export function poseBrief(corner: Corner, travelMm: number, steer: number, figures: Figures): string {
  const travel = travelBrief(travelMm, figures);
  const steering = steeringFigures(corner, figures);
  const input = steeringText(shownInput(corner, steer), steering);
  // If both have the same unit, it is written once.
  if (travel === 'ride height' || (input !== 'straight ahead' && steering.unit === figures.unit))
    return `${travel}, ${input}`;
  return `${travel} ${figures.unit}, ${input}`;
}

/** Stops that a pose is at: "full droop, full left lock"; empty if none. */
export function stopsText({ side, suspension }: Corner, travelMm: number, steer: number): string {
  const { bump, droop } = suspension.travel;
  const isLeft = shownSteer(side, steer) > 0;
  return [
    ...(travelMm !== 0 && travelMm === bump ? ['full bump'] : []),
    ...(travelMm !== 0 && travelMm === -droop ? ['full droop'] : []),
    ...(Math.abs(steer) === 1 ? [`full ${isLeft ? 'left' : 'right'} lock`] : []),
  ].join(', ');
}

/** Travel with its unit: "bump +31 mm", "ride height". */
export const travelText = (travelMm: number, figures: Figures): string => {
  const brief = travelBrief(travelMm, figures);
  return brief === 'ride height' ? brief : `${brief} ${figures.unit}`;
};

/** Steering input with its unit: "rack +42 mm", "straight ahead". */
export const steeringText = (input: number, steering: SteeringFigures): string => {
  const brief = steeringBrief(input, steering);
  return brief === 'straight ahead' ? brief : steering.addUnit(brief);
};

/** Steering input for screen readers: "rack +42 mm, to the left". */
export const steeringSpoken = (input: number, steering: SteeringFigures): string => {
  const text = steeringText(input, steering);
  return text === 'straight ahead' ? text : `${text}, to the ${input > 0 ? 'left' : 'right'}`;
};

/** A margin with its sign, rounded down. */
export function signedLeast(mm: number, figures: Figures): string {
  const text = figures.least(mm);
  return text.startsWith('−') || Number(text) === 0 ? text : `+${text}`;
}

/** A margin with its sign, rounded down; "at most −24.30" if the error is infinite (depth without an upper bound). */
export const signedMargin = (mm: number, errorMm: number, figures: Figures): string =>
  errorMm === Number.POSITIVE_INFINITY ? figures.margin(mm, errorMm) : signedLeast(mm, figures);

/** A clearance without error bar and unit, rounded down; "at least 19.20 deep" for a depth without an upper bound. */
export const gapText = (mm: number, errorMm: number, figures: Figures): string =>
  errorMm === Number.POSITIVE_INFINITY ? figures.withError(mm, errorMm) : figures.least(mm);

/** A clearance without error bar, with its unit; see `gapText`. */
export const gapTextWithUnit = (mm: number, errorMm: number, figures: Figures): string =>
  errorMm === Number.POSITIVE_INFINITY
    ? figures.withErrorAndUnit(mm, errorMm)
    : `${figures.least(mm)} ${figures.unit}`;

/** Appends the nearest fraction of an inch if one is chosen: "0.438 in, 7/16 in". */
export const withFraction = (
  text: string,
  mm: number,
  { unit, fraction }: { unit: LengthUnit; fraction: InchDenominator | undefined },
): string => (unit === 'in' && fraction !== undefined ? `${text}, ${formatInches(mm, fraction)}` : text);

/** A length in the unit with at most `decimals` decimals, without trailing zeros and without the unit. */
export const trimmed = (mm: number, unit: LengthUnit, decimals = unit === 'mm' ? 1 : 3): string => {
  const text = decimal(mm / MM_PER_UNIT[unit], decimals);
  return text.includes('.') ? text.replace(/0+$/, '').replace(/\.$/, '') : text;
};

/** The text with its first letter in upper case. */
export const capital = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}`;
