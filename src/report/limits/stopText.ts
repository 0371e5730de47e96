import { layoutOf } from '../../layouts/layoutOf.ts';
import type { Bound } from '../../studies/limits/headroom.ts';
import type { LockOutDistance } from '../../studies/limits/lockOuts.ts';
import type { RangeEnd } from '../../studies/limits/ranges.ts';
import type { StoppedTravel } from '../../studies/limits/stopFigures.ts';
import type { ShownStops, Stop, StopEnd, StopKind } from '../../studies/limits/stops.ts';
import { numberedStretches, type RegionPoint } from '../../studies/limits/usableRegion.ts';
import { pairLabel } from '../../sweep/pair.ts';
import { formatInches } from '../../units/formatLength.ts';
import { angle, decimal, type Figures } from '../figures.ts';
import { bindingText, unknownInWords } from '../limitRows.ts';
import { steerInWords, travelInWords } from '../pose.ts';
import { changesInWords } from '../remedy/changeWords.ts';
import { steeringFigures } from '../steering.ts';
import { indented, type TextLine, textLine } from '../textLine.ts';

/** What ends travel or lock, in words. */
export function boundInWords({ setup }: Pick<ShownStops, 'setup'>, bound: Bound): string {
  switch (bound.kind) {
    case 'pair':
      return pairLabel(setup.solids, setup.pairs[bound.pair]);
    case 'limit':
      return bindingText(bound.limit);
    case 'lockOut':
      return 'the suspension locks out';
  }
}

/** A share as a percentage, rounded down. */
const percent = (share: number): string => `${decimal(Math.floor(1000 * share + 1e-6) / 10, 1)} %`;

const placeInWords = (study: ShownStops, { travelMm, steer }: RegionPoint, figures: Figures): string =>
  `${travelInWords(travelMm, figures)}, ${steerInWords(study.setup.design.corner, steer, figures)}`;

/** What the goal of a study keeps. */
const goalInWords = ({ goal }: Pick<ShownStops, 'goal'>): string =>
  goal === 'contact' ? 'nothing touches and nothing binds' : 'every margin is kept and nothing binds';

/** The numbered stretches of the edge, a sentence each: "1: Wheel ↔ Tie rod: from ...". */
export const edgeSentences = (study: ShownStops, figures: Figures): string[] =>
  numberedStretches(study.region).map(({ number, stretch: { bound, points } }) => {
    const [first, last] = [points[0], points[points.length - 1]];
    const to = points.length === 1 ? '' : ` to ${placeInWords(study, last, figures)}`;
    return `${number}: ${boundInWords(study, bound)}, from ${placeInWords(study, first, figures)}${to}.`;
  });

const KIND_TITLES: Readonly<Record<StopKind, string>> = {
  lock: 'Steering stop, clear at all travel',
  travel: 'Bump and droop stops, clear at all lock',
  both: 'Both, the most travel and lock together',
};
const NO_STOP: Readonly<Record<StopKind, string>> = {
  lock: 'No steering stop alone clears: something fails straight ahead too.',
  travel: 'No bump and droop stops alone clear: something fails at ride height too.',
  both: 'Stops for both keep no more of travel and lock than the better one alone.',
};

/** "spacer 23 mm (15/16 in)": the thickness in both units, each rounded up to what a shop has. */
function spacerInWords(spacerMm: number): string {
  const sixteenths = Math.ceil((spacerMm / 25.4) * 16 - 1e-6);
  return `${Math.ceil(spacerMm - 1e-6)} mm or ${formatInches((sixteenths * 25.4) / 16, 16)}`;
}

const degreesOr = (value: number | undefined): string => (value === undefined ? 'not reached' : angle(value));

/** What to make at one end, in a sentence. */
function endInWords({ setup }: ShownStops, end: StopEnd, figures: Figures): string {
  const { corner } = setup.design;
  const cut = end.asked - end.kept;
  if (end.end === 'bump' || end.end === 'droop') {
    const stop =
      end.damperMm === undefined
        ? ''
        : end.end === 'bump'
          ? ` Bump stop: solid at ${upTo(end.damperMm, figures)} between the damper's mounts, or sooner.`
          : ` Strap: tight at ${downTo(end.damperMm, figures)} between the damper's mounts, or sooner.`;
    return `${end.end === 'bump' ? 'Bump' : 'Droop'} less by ${figures.placeWithUnit(cut)}.${stop}`;
  }
  const steering = steeringFigures(corner, figures);
  const side = `front edge ${end.end}`;
  const spacer = end.spacerMm === undefined ? '' : ` Spacer on the rack: ${spacerInWords(end.spacerMm)}.`;
  return `${steering.noun[0].toUpperCase()}${steering.noun.slice(1)} less by ${steering.withUnit(cut)}, ${side}.${spacer} Wheel angle at ride height ${degreesOr(end.wheelAngleDeg?.asked)} to ${degreesOr(end.wheelAngleDeg?.kept)}.`;
}

/** A damper length rounded up or down to what is shown, so that the stop stays on the safe side. */
const upTo = (mm: number, figures: Figures): string => roundedTo(mm, figures, Math.ceil);
const downTo = (mm: number, figures: Figures): string => roundedTo(mm, figures, Math.floor);
function roundedTo(mm: number, { unit }: Figures, round: (value: number) => number): string {
  const [per, scale] = unit === 'mm' ? [1, 10] : [25.4, 100];
  return `${decimal(round((mm / per) * scale) / scale, unit === 'mm' ? 1 : 2)} ${unit}`;
}

/** Sentences about a stop. */
export function stopSentences(study: ShownStops, stop: Stop, figures: Figures): string[] {
  const { corner } = study.setup.design;
  const { noun, withUnit } = steeringFigures(corner, figures);
  const isLockCut = stop.ends.some(({ end }) => end === 'outboard' || end === 'inboard');
  const least = Math.min(stop.kept.outboard, stop.kept.inboard);
  const circle = (mm: number) => figures.placeWithUnit(mm);
  return [
    `File: ${changesInWords(stop.changes)}.`,
    ...stop.ends.map((end) => endInWords(study, end, figures)),
    ...(isLockCut && stop.kept.outboard !== stop.kept.inboard
      ? [
          `If the other corner is the mirror image of this one, stop the ${noun} at ${withUnit(least)} to each side.`,
        ]
      : []),
    ...(isLockCut && study.turningCircleMm !== undefined && stop.turningCircleMm !== undefined
      ? [
          `Turning circle ${circle(study.turningCircleMm)} to ${circle(stop.turningCircleMm)}, with the mirror image on the other side.`,
        ]
      : []),
    stop.failing.length === 0
      ? 'Swept and proved as a changed corner: nothing of this is left.'
      : `The changed corner still fails: ${stop.failing.map((bound) => boundInWords(study, bound)).join(', ')}.`,
  ];
}

const END_NAMES: Readonly<Record<RangeEnd, string>> = {
  bump: 'Bump',
  droop: 'Droop',
  outboard: 'Lock, front edge outboard',
  inboard: 'Lock, front edge inboard',
};

/** Distance from each end to lock-out, a sentence each. */
export function lockOutSentences(
  study: ShownStops,
  distances: readonly LockOutDistance[],
  figures: Figures,
): string[] {
  const steering = steeringFigures(study.setup.design.corner, figures);
  return distances.map(({ end, beyond, isOpen, reason }) => {
    const isTravel = end === 'bump' || end === 'droop';
    const shown = (amount: number) => (isTravel ? figures.placeWithUnit(amount) : steering.withUnit(amount));
    if (isOpen) return `${END_NAMES[end]}: no lock-out within ${shown(beyond)} more.`;
    return beyond < 0
      ? `${END_NAMES[end]}: locks out ${shown(-beyond)} before the end. ${reason}`
      : `${END_NAMES[end]}: locks out ${shown(beyond)} beyond the end. ${reason}`;
  });
}

/** The travel that a typed length of the damper gives, in a sentence. `what`: "Bump stop solid". */
export function stoppedTravelInWords(
  what: string,
  lengthMm: number,
  travel: StoppedTravel | undefined,
  figures: Figures,
): string {
  const at = `${what} at ${figures.placeWithUnit(lengthMm)} between the damper's mounts`;
  if (travel === undefined) return `${at}: the suspension does not reach that length at every lock.`;
  const { straightMm, lowestMm, highestMm } = travel;
  return `${at}: ${travelInWords(straightMm, figures)} straight ahead, ${figures.span(lowestMm, highestMm)} ${figures.unit} over the lock.`;
}

/** Region and stops as lines for a terminal. */
export function stopLines(
  study: ShownStops,
  distances: readonly LockOutDistance[],
  figures: Figures,
): string[] {
  const lines: TextLine[] = [];
  const list = (title: string, texts: readonly string[]) => {
    if (texts.length === 0) return;
    lines.push(textLine(title), ...texts.map((text) => textLine(text, 1)));
  };
  const names = (bounds: readonly Bound[]) => bounds.map((bound) => boundInWords(study, bound));
  list('Fails at ride height, straight ahead; no stop clears it:', names(study.always));
  list('Ends travel or lock:', names(study.failing));
  list(
    'Unknown:',
    study.unknown.map((limit) => `${unknownInWords(limit)}.`),
  );
  list('Distance to lock-out:', lockOutSentences(study, distances, figures));
  lines.push(textLine(''), textLine(regionSentence(study)));
  lines.push(...edgeSentences(study, figures).map((text) => textLine(text, 1)));
  if (study.failing.length > 0) {
    lines.push(textLine(''), textLine('Stops:'));
    for (const kind of Object.keys(KIND_TITLES) as StopKind[]) {
      const stop = study.stops[kind];
      if (stop === undefined) {
        lines.push(textLine(missingInWords(study, kind), 1));
        continue;
      }
      lines.push(textLine(stopTitle(study, stop), 1));
      lines.push(...stopSentences(study, stop, figures).map((text) => textLine(text, 2)));
    }
  }
  return indented(lines);
}

/** "Steering stop, clear at all travel: keeps 83.0 % of travel × rack". */
export const stopTitle = ({ setup }: ShownStops, { kind, share }: Stop): string =>
  `${KIND_TITLES[kind]}: keeps ${percent(share)} of travel × ${layoutOf(setup.design.corner.suspension).steering.noun}`;

/** Why there is no stop of a kind. */
export const missingInWords = ({ stops }: ShownStops, kind: StopKind): string =>
  kind === 'both' && stops.lock === undefined && stops.travel === undefined
    ? 'No stops for both clear.'
    : NO_STOP[kind];

/** How much of travel and lock can be used. */
export function regionSentence(study: ShownStops): string {
  const { noun } = layoutOf(study.setup.design.corner.suspension).steering;
  const apart = study.always.length > 0 ? ', apart from what fails at ride height' : '';
  if (study.region === undefined) return 'No part of travel and lock can be used.';
  return study.failing.length === 0
    ? `All of travel × ${noun} can be used: ${goalInWords(study)}${apart}.`
    : `Over ${percent(study.region.share)} of travel × ${noun}, ${goalInWords(study)}${apart} (interpolated between the steps). It ends at:`;
}
