import type { Corner } from '../../design/schema.ts';
import { caliperFigures } from '../../studies/clocking/figures.ts';
import type { ArmDistance } from '../../studies/clocking/lowerArm.ts';
import type { Border, Region } from '../../studies/clocking/region.ts';
import { type Arc, isWhole, wrapDeg } from '../../studies/clocking/spans.ts';
import type { ClockingStudy } from '../../studies/clocking/study.ts';
import type { Clockings } from '../../studies/clocking/studyPairs.ts';
import type { SweptCandidate } from '../../studies/clocking/sweepCandidates.ts';
import { printable } from '../escape.ts';
import { type Figures, signedAngle } from '../figures.ts';
import { aheadInWords, bleedAndArmLines, marginInWords, type NameOf, unmetLines } from './clockingWords.ts';

/** What is told of a study. */
export interface FitTold {
  corner: Corner;
  study: ClockingStudy;
  /** See `lowerArmDistance`. */
  toLowerArm: (caliperDeg: number) => ArmDistance | undefined;
  /** Candidates as ranked after they were swept; undefined where they were not. */
  swept: readonly SweptCandidate<Clockings>[] | undefined;
}

const ABOUT: Record<Border['about'], string> = {
  caliper: 'caliper',
  hub: 'hub bolts',
  between: 'caliper less hub',
};

/** Names pairs of a study. */
const namesOf =
  ({ pairs }: ClockingStudy): NameOf =>
  (index) =>
    pairs[index].names.join(' ↔ ');

/** The study as lines for a terminal. */
export function fitLines(told: FitTold, figures: Figures): string[] {
  const { study } = told;
  const { regions } = study;
  const nameOf = namesOf(study);
  return [
    'As drawn, at ride height:',
    ...placeLines(told, study.drawn, figures).map((line) => `  ${line}`),
    `  least margin: ${marginInWords(nameOf, study.asDrawn, figures)}`,
    '',
    `No clocking changes: ${marginInWords(nameOf, study.unchanging, figures)}`,
    '',
    ...(regions.length === 0
      ? ['No clocking clears.']
      : ['Clears, with what ends it:', ...regions.flatMap((region) => regionLines(study, region))]),
    ...study.unmet.flatMap((unmet) => ['', ...unmetLines(nameOf, unmet, figures)]),
    '',
    ...candidateLines(told, figures),
  ].map(printable);
}

function placeLines({ corner, toLowerArm }: FitTold, clockings: Clockings, figures: Figures): string[] {
  const stands = caliperFigures(corner, clockings.caliperDeg);
  return [
    `caliper at ${signedAngle(clockings.caliperDeg)}, its middle ${aheadInWords(stands, figures)}; hub at ${signedAngle(clockings.hubDeg)}`,
    ...bleedAndArmLines(stands, toLowerArm(clockings.caliperDeg), figures),
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
  const what = limitedBy.length === 0 ? 'what is wanted' : limitedBy.map(namesOf(study)).join('; ');
  return `${end === 'from' ? 'begins' : 'ends'} at: ${what}`;
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
      candidate === undefined ? '' : marginInWords(namesOf(study), candidate.least, figures),
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
