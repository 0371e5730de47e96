import type { Corner } from '../../design/schema.ts';
import type { LeastMargin } from '../../studies/clocking/axis.ts';
import { caliperFigures } from '../../studies/clocking/figures.ts';
import type { ArmDistance } from '../../studies/clocking/lowerArm.ts';
import type { Border, Region } from '../../studies/clocking/region.ts';
import { type Arc, isWhole, wrapDeg } from '../../studies/clocking/spans.ts';
import type { ClockingStudy } from '../../studies/clocking/study.ts';
import { type Clockings, MOST_MARGIN_MM } from '../../studies/clocking/studyPairs.ts';
import type { SweptCandidate } from '../../studies/clocking/sweepCandidates.ts';
import type { WantName } from '../../studies/clocking/wants.ts';
import { printable } from '../escape.ts';
import { angle, type Figures, signedAngle } from '../figures.ts';

/** What is told of a study. */
export interface FitTold {
  corner: Corner;
  study: ClockingStudy;
  /** See `lowerArmDistance`. */
  toLowerArm: (caliperDeg: number) => ArmDistance | undefined;
  /** Candidates as ranked after they were swept; undefined where they were not. */
  swept: readonly SweptCandidate<Clockings>[] | undefined;
}

const WANTS: Record<WantName, string> = {
  bleedWithinDeg: 'the bleed screw as near to the top as wanted',
  caliperPlace: 'the caliper on the wanted side of the axle',
  caliperRange: 'the wanted clockings of the caliper',
  hubRange: 'the wanted clockings of the hub',
};

const ABOUT: Record<Border['about'], string> = {
  caliper: 'caliper',
  hub: 'hub bolts',
  between: 'caliper less hub',
};

const namesOf = ({ pairs }: ClockingStudy, index: number): string => pairs[index].names.join(' ↔ ');

/** A margin with what it belongs to. */
export function marginInWords(study: ClockingStudy, least: LeastMargin, figures: Figures): string {
  if (Number.isNaN(least.marginMm)) return `unknown: ${namesOf(study, least.limitedBy)}`;
  if (least.marginMm === Number.POSITIVE_INFINITY)
    return `more than ${figures.givenWithUnit(MOST_MARGIN_MM)}`;
  const margin = figures.signedWithError(least.marginMm, least.errorMm);
  return `${margin} ${figures.unit}, ${namesOf(study, least.limitedBy)}`;
}

/** The study as lines for a terminal. */
export function fitLines(told: FitTold, figures: Figures): string[] {
  const { study } = told;
  const { regions } = study;
  return [
    'As drawn, at ride height:',
    ...placeLines(told, study.drawn, figures).map((line) => `  ${line}`),
    `  least margin: ${marginInWords(study, study.asDrawn, figures)}`,
    '',
    `No clocking changes: ${marginInWords(study, study.unchanging, figures)}`,
    '',
    ...(regions.length === 0
      ? ['No clocking clears.']
      : ['Clears, with what ends it:', ...regions.flatMap((region) => regionLines(study, region))]),
    ...study.unmet.flatMap((unmet) => ['', ...unmetLines(study, unmet, figures)]),
    '',
    ...candidateLines(told, figures),
  ].map(printable);
}

function placeLines({ corner, toLowerArm }: FitTold, clockings: Clockings, figures: Figures): string[] {
  const { bleedScrewDeg, aheadMm } = caliperFigures(corner, clockings.caliperDeg);
  const arm = toLowerArm(clockings.caliperDeg);
  const where = Math.abs(aheadMm) < 0.05 ? 'in line with' : aheadMm > 0 ? 'ahead of' : 'behind';
  const by = where === 'in line with' ? '' : `${figures.placeWithUnit(Math.abs(aheadMm))} `;
  return [
    `caliper at ${signedAngle(clockings.caliperDeg)}, its middle ${by}${where} the axle; hub at ${signedAngle(clockings.hubDeg)}`,
    ...(bleedScrewDeg === undefined
      ? []
      : [`bleed screw ${angle(Math.abs(bleedScrewDeg))} from straight up`]),
    ...(arm === undefined
      ? []
      : [`caliper to lower arm: ${figures.withError(arm.clearanceMm, arm.errorMm)} ${figures.unit}`]),
  ];
}

/** From one angle to another, rounded inward to a hundredth, so that no more is called clear than was proved. */
const arcInWords = ({ fromDeg, toDeg }: Arc): string => {
  const from = wrapDeg(Math.ceil(fromDeg * 100) / 100);
  const to = wrapDeg(Math.floor(toDeg * 100) / 100);
  return `${signedAngle(from, 2)} to ${signedAngle(to, 2)}`;
};

function regionLines(study: ClockingStudy, { borders, ...arcs }: Region): string[] {
  const told = (['caliper', 'hub', 'between'] as const).filter((about) => !isWhole(arcs[about]));
  if (told.length === 0) return ['  any clocking'];
  return told.flatMap((about, k) => [
    `  ${k === 0 ? '' : 'with '}${ABOUT[about]} ${arcInWords(arcs[about])}`,
    ...borders
      .filter((border) => border.about === about)
      .map((border) => `    ${borderInWords(study, border)}`),
  ]);
}

function borderInWords(study: ClockingStudy, { end, limitedBy }: Border): string {
  const what =
    limitedBy.length === 0 ? 'what is wanted' : limitedBy.map((index) => namesOf(study, index)).join('; ');
  return `${end === 'from' ? 'begins' : 'ends'} at: ${what}`;
}

function unmetLines(
  study: ClockingStudy,
  { wants, contradiction, best }: ClockingStudy['unmet'][number],
  figures: Figures,
): string[] {
  const wanted = wants.map((want) => WANTS[want]).join(', with ');
  if (contradiction || best === undefined) return [`Contradict each other: ${wanted}`];
  const { clockings, least } = best;
  const at = `caliper at ${signedAngle(clockings.caliperDeg)}, hub at ${signedAngle(clockings.hubDeg)}`;
  const forbids = Number.isNaN(least.marginMm)
    ? `${namesOf(study, least.limitedBy)} cannot be told`
    : `${namesOf(study, least.limitedBy)}, ${figures.bound(Math.max(0, least.marginMm === Number.POSITIVE_INFINITY ? 0 : least.errorMm - least.marginMm))} ${figures.unit} missing`;
  return [
    wants.length === 0 ? 'No clocking at all clears.' : `No clocking has ${wanted}.`,
    `  least is missing with ${at}: ${forbids}`,
  ];
}

function candidateLines(told: FitTold, figures: Figures): string[] {
  const { study, swept, corner, toLowerArm } = told;
  if (study.candidates.length === 0) return ['No candidates.'];
  const order = swept?.map(({ candidate }) => candidate) ?? study.candidates;
  const titles = [
    'No.',
    'Caliper',
    'Hub',
    'Bleed screw',
    'Ahead of axle',
    'To lower arm',
    'Margin at ride height',
    ...(swept === undefined ? [] : ['Worst over travel and lock']),
  ];
  const rows = order.map((clockings, k) => {
    const candidate = study.candidates.find(
      (one) => one.caliperDeg === clockings.caliperDeg && one.hubDeg === clockings.hubDeg,
    );
    const { bleedScrewDeg, aheadMm } = caliperFigures(corner, clockings.caliperDeg);
    const arm = toLowerArm(clockings.caliperDeg);
    return [
      String(k + 1),
      signedAngle(clockings.caliperDeg),
      signedAngle(clockings.hubDeg),
      bleedScrewDeg === undefined ? '' : signedAngle(bleedScrewDeg),
      figures.signedPlace(aheadMm),
      arm === undefined ? '' : figures.place(arm.clearanceMm),
      candidate === undefined ? '' : marginInWords(study, candidate.least, figures),
      ...(swept === undefined ? [] : [worstInWords(swept[k], figures)]),
    ];
  });
  const widths = titles.map((title, i) => Math.max(title.length, ...rows.map((row) => row[i].length)));
  const line = (row: string[]) =>
    row
      .map((cell, i) => (i < 6 ? cell.padStart(widths[i]) : cell.padEnd(widths[i])))
      .join('  ')
      .trimEnd();
  return [`Candidates, best first, lengths in ${figures.unit}:`, line(titles), ...rows.map(line)];
}

function worstInWords({ worst, findings }: SweptCandidate<Clockings>, figures: Figures): string {
  const open =
    findings.counts.unknown > 0 || findings.unreachableSteps.length > 0 ? ', not all could be told' : '';
  if (worst === undefined) return `all far${open}`;
  const state = findings.counts.touches > 0 ? 'touches: ' : 'at least ';
  return `${state}${figures.least(worst.marginMm)} ${figures.unit}, ${worst.names.join(' ↔ ')}${open}`;
}
