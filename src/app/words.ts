import type { Corner } from '../design/schema.ts';
import { shownSteer } from '../design/side.ts';
import type { PairState } from '../findings/findings.ts';
import type { LimitFinding, LimitState } from '../findings/limitFindings.ts';
import { decimal, type Figures, type LengthUnit } from '../report/figures.ts';
import { bindingText } from '../report/limitRows.ts';
import { shownRackMm } from '../report/pose.ts';
import { farInWords } from '../report/treatment.ts';
import type { Solid } from '../solids/solid.ts';
import type { Pair } from '../sweep/pair.ts';

/** States as the screens say them. */
export const STATE_WORDS: Record<PairState | LimitState, string> = {
  touches: 'touches',
  binds: 'binds',
  tight: 'tight',
  clear: 'clear',
  far: 'far',
  unknown: 'unknown',
};

/** "2 bind, 1 unknown, 4 clear": those of which there is one at least. */
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

/** "Upper uniball binds", "Damper tops out": of those that bind. */
export const bindingTexts = (limits: readonly LimitFinding[]): string[] =>
  limits.filter(({ state }) => state === 'binds').map(bindingText);

/** A state of one pair in words; of joined parts with nothing else near: "joined; nothing else within 60 mm". */
export const stateText = (
  state: PairState,
  pair: Pick<Pair, 'zones'>,
  limitMm: number,
  figures: Figures,
): string => (state === 'far' ? farInWords([pair], limitMm, figures) : STATE_WORDS[state]);

/** "Tie rod ↔ Wheel". */
export const pairLabel = (solids: readonly Solid[], { a, b }: Pick<Pair, 'a' | 'b'>): string =>
  `${solids[a].label} ↔ ${solids[b].label}`;

/** A place without an idle decimal: `−70`, `+12.5`. */
const short = (text: string) => text.replace(/\.0+$/, '');

/** "bump +31", "droop −70", "ride height": travel without its unit. */
export function travelBrief(travelMm: number, figures: Figures): string {
  const amount = short(figures.signedPlace(travelMm));
  if (Number(amount) === 0) return 'ride height';
  return `${travelMm > 0 ? 'bump' : 'droop'} ${amount}`;
}

/** "rack +60", "straight ahead": rack travel as shown, positive to the left, without its unit. */
export function rackBrief(rackMm: number, figures: Figures): string {
  const amount = short(figures.signedPlace(rackMm));
  return Number(amount) === 0 ? 'straight ahead' : `rack ${amount}`;
}

/** "droop −70, rack +60 mm". */
export function poseBrief(corner: Corner, travelMm: number, steer: number, figures: Figures): string {
  const travel = travelBrief(travelMm, figures);
  const rack = rackBrief(shownRackMm(corner, steer), figures);
  if (travel === 'ride height' && rack === 'straight ahead') return `${travel}, ${rack}`;
  // The unit once, after the last figure.
  return rack === 'straight ahead'
    ? `${travel} ${figures.unit}, ${rack}`
    : `${travel}, ${rack} ${figures.unit}`;
}

/** "full droop, full left lock": the stops that a pose stands at; empty between them. */
export function stopsText({ side, suspension }: Corner, travelMm: number, steer: number): string {
  const { bump, droop } = suspension.travel;
  const isLeft = shownSteer(side, steer) > 0;
  return [
    ...(travelMm !== 0 && travelMm === bump ? ['full bump'] : []),
    ...(travelMm !== 0 && travelMm === -droop ? ['full droop'] : []),
    ...(Math.abs(steer) === 1 ? [`full ${isLeft ? 'left' : 'right'} lock`] : []),
  ].join(', ');
}

/** "bump 31 mm", "ride height". */
export const travelText = (travelMm: number, figures: Figures): string => {
  const brief = travelBrief(travelMm, figures);
  return brief === 'ride height' ? brief : `${brief} ${figures.unit}`;
};

/** "rack +42 mm", "straight ahead". */
export const rackText = (rackMm: number, figures: Figures): string => {
  const brief = rackBrief(rackMm, figures);
  return brief === 'straight ahead' ? brief : `${brief} ${figures.unit}`;
};

/** For a slider to speak: "rack +42 mm, to the left". */
export const rackSpoken = (rackMm: number, figures: Figures): string => {
  const text = rackText(rackMm, figures);
  return text === 'straight ahead' ? text : `${text}, to the ${rackMm > 0 ? 'left' : 'right'}`;
};

/** A margin with its sign, rounded down: never more than there is. */
export function signedLeast(mm: number, figures: Figures): string {
  const text = figures.least(mm);
  return text.startsWith('−') || Number(text) === 0 ? text : `+${text}`;
}

/** The same; "at most −24.30" with the infinite error of a depth without an upper bound. */
export const signedMargin = (mm: number, errorMm: number, figures: Figures): string =>
  errorMm === Number.POSITIVE_INFINITY ? figures.margin(mm, errorMm) : signedLeast(mm, figures);

/** A clearance without its error bar, rounded down; "at least 19.20 deep" of a depth without an upper bound. */
export const gapText = (mm: number, errorMm: number, figures: Figures): string =>
  errorMm === Number.POSITIVE_INFINITY ? figures.withError(mm, errorMm) : figures.least(mm);

/** The same with the unit. */
export const gapTextWithUnit = (mm: number, errorMm: number, figures: Figures): string =>
  errorMm === Number.POSITIVE_INFINITY
    ? figures.withErrorAndUnit(mm, errorMm)
    : `${figures.least(mm)} ${figures.unit}`;

const MM_PER: Record<LengthUnit, number> = { mm: 1, in: 25.4 };

/** A length to `decimals` places at most, idle zeros left off, without a unit. */
export const trimmed = (mm: number, unit: LengthUnit, decimals = unit === 'mm' ? 1 : 3): string => {
  const text = decimal(mm / MM_PER[unit], decimals);
  return text.includes('.') ? text.replace(/0+$/, '').replace(/\.$/, '') : text;
};

/** A text with its first letter large. */
export const capital = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}`;
