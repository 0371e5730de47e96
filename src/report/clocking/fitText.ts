import type { LimitFinding } from '../../findings/limitFindings.ts';
import type { AssemblyStudy } from '../../studies/assembly/assembly.ts';
import { type DistinctRegion, distinctRegions } from '../../studies/clocking/distinctRegions.ts';
import { caliperFigures, hubPeriodDeg } from '../../studies/clocking/figures.ts';
import type { ArmDistance } from '../../studies/clocking/lowerArm.ts';
import { choiceOf } from '../../studies/clocking/mountingChoice.ts';
import type { Border } from '../../studies/clocking/region.ts';
import { type Arc, isWhole, wrapDeg } from '../../studies/clocking/spans.ts';
import type { ClockingStudy } from '../../studies/clocking/study.ts';
import {
  areSameWants,
  type MountedCandidate,
  type MountedStudy,
  type MountingsStudy,
  type UnmetByAll,
} from '../../studies/clocking/studyMountings.ts';
import type { Clockings } from '../../studies/clocking/studyPairs.ts';
import type { SweptCandidate } from '../../studies/clocking/sweepCandidates.ts';
import type { Unmet } from '../../studies/clocking/unmet.ts';
import { pairLabelFrom } from '../../sweep/pair.ts';
import { visible } from '../../units/plainText.ts';
import { angle, type Figures, signedAngle } from '../figures.ts';
import {
  aheadInWords,
  bleedAndArmLines,
  marginInWords,
  mountingInWords,
  type NameOf,
  unchangingLimits,
  unmetLines,
  worstInWords,
} from './clockingWords.ts';
import { boltsCell, candidateReachLines } from './reachWords.ts';

/** A studied mounting. */
export interface ReportedMounting extends MountedStudy {
  /** See `lowerArmDistance`. */
  toLowerArm: (caliperDeg: number) => ArmDistance | undefined;
}

/** A study with the results that its report needs. */
export interface FitReport extends MountingsStudy {
  mounted: readonly ReportedMounting[];
  /** Candidates as ranked by their sweeps; undefined if they are not swept. */
  swept: readonly SweptCandidate<MountedCandidate>[] | undefined;
  /** Assembly study of each candidate, in their order; undefined for a corner without bolts. */
  reach: readonly AssemblyStudy[] | undefined;
  /** Joints and dampers, which no clocking changes: over travel and lock if candidates are swept, else at ride height. */
  limits: readonly LimitFinding[];
}

const ABOUT: Record<Border['about'], string> = {
  caliper: 'caliper',
  hub: 'hub bolts',
  between: 'caliper less hub',
};

/** Returns a function that names the pairs of a study. */
const namesOf =
  ({ pairs }: ClockingStudy): NameOf =>
  (index) =>
    pairLabelFrom(...pairs[index].names);

/** The study as lines for a terminal. */
export function fitLines(report: FitReport, figures: Figures): string[] {
  const { mounted, unmet, limits, swept } = report;
  const unchanging = unchangingLimits(limits, swept?.length ? 'travel and lock' : 'ride height');
  const [first] = mounted;
  const sections =
    mounted.length > 1
      ? mounted.flatMap((one) => [
          ...(one === first ? [] : ['']),
          `Mounted: ${mountingInWords(one.mounting)}`,
          ...studyLines(one, figures, unmet).map((line) => (line === '' ? '' : `  ${line}`)),
        ])
      : [
          ...(choiceOf(first.mounting) === 'drawn'
            ? []
            : [`Mounted: ${mountingInWords(first.mounting)}`, '']),
          ...studyLines(first, figures, []),
        ];
  return [
    ...sections,
    ...(mounted.length > 1 ? unmet.flatMap((one) => ['', ...unmetByAllLines(mounted, one, figures)]) : []),
    '',
    ...candidateLines(report, figures),
    ...(unchanging === undefined ? [] : ['', unchanging]),
    ...boltLines(report),
  ].map(visible);
}

/** The study of one mounting, without the requirements in `byAll`, which no mounting meets. */
function studyLines(mounted: ReportedMounting, figures: Figures, byAll: readonly Unmet[]): string[] {
  const { study, mounting } = mounted;
  const { regions } = study;
  const nameOf = namesOf(study);
  const own = study.unmet.filter((unmet) => !byAll.some((one) => areSameWants(one, unmet)));
  return [
    choiceOf(mounting) === 'drawn'
      ? 'As drawn, at ride height:'
      : 'At the clockings as drawn, at ride height:',
    ...placeLines(mounted, study.drawn, figures).map((line) => `  ${line}`),
    `  least margin: ${marginInWords(nameOf, study.asDrawn, figures)}`,
    '',
    `Least margin of the pairs that no clocking changes: ${marginInWords(nameOf, study.unchanging, figures)}`,
    '',
    ...(regions.length === 0
      ? ['No clocking clears.']
      : [
          'Clear regions, with the pairs at their borders:',
          ...distinctRegions(regions, hubPeriodDeg(mounted.setup.design.corner)).flatMap((one) =>
            regionLines(study, one),
          ),
        ]),
    ...own.flatMap((unmet) => ['', ...unmetLines(nameOf, unmet, figures)]),
  ];
}

/** Requirements that no mounting meets. */
function unmetByAllLines(
  mounted: readonly Pick<ReportedMounting, 'mounting' | 'study'>[],
  unmet: UnmetByAll,
  figures: Figures,
): string[] {
  const { mounting, study } = mounted[unmet.mounting ?? 0];
  return unmetLines(namesOf(study), unmet, figures, mountingInWords(mounting));
}

function placeLines(
  { setup, toLowerArm }: ReportedMounting,
  clockings: Clockings,
  figures: Figures,
): string[] {
  const caliper = caliperFigures(setup.design.corner, clockings.caliperDeg);
  return [
    `caliper at ${signedAngle(clockings.caliperDeg)}, its middle ${aheadInWords(caliper, figures)}; hub at ${signedAngle(clockings.hubDeg)}`,
    ...bleedAndArmLines(caliper, toLowerArm(clockings.caliperDeg), figures),
  ];
}

/** From one angle to another, rounded inward to 0.01°, so that the range shown lies in the proved one. */
const arcInWords = ({ fromDeg, toDeg }: Arc): string => {
  const from = wrapDeg(Math.ceil(fromDeg * 100) / 100);
  const to = wrapDeg(Math.floor(toDeg * 100) / 100);
  return `${signedAngle(from, 2)} to ${signedAngle(to, 2)}`;
};

function regionLines(study: ClockingStudy, { region, everyDeg }: DistinctRegion): string[] {
  const { borders, ...arcs } = region;
  const bounded = (['caliper', 'hub', 'between'] as const).filter((about) => !isWhole(arcs[about]));
  if (bounded.length === 0) return ['  any clocking'];
  const lines = bounded.flatMap((about, k) => [
    `  ${k === 0 ? '' : 'with '}${ABOUT[about]} ${arcInWords(arcs[about])}`,
    ...borders
      .filter((border) => border.about === about)
      .map((border) => `    ${borderInWords(study, border)}`),
  ]);
  return everyDeg === undefined ? lines : [...lines, `  repeats every ${angle(everyDeg)} of hub clocking`];
}

function borderInWords(study: ClockingStudy, { end, limitedBy }: Border): string {
  const what =
    limitedBy.length === 0 ? 'the edge of the allowed range' : limitedBy.map(namesOf(study)).join('; ');
  return `${end === 'from' ? 'begins' : 'ends'} at: ${what}`;
}

/** A column of the list of candidates: text is aligned left, figures right. */
interface Column {
  title: string;
  isText?: true;
  cell(candidate: MountedCandidate, k: number): string;
}

/** Bolts that cannot be reached; the part names are the same in every mounting. */
function boltLines({ mounted: [{ setup }], reach = [] }: FitReport): string[] {
  const lines = candidateReachLines(reach, setup.design.corner);
  return lines.length === 0 ? [] : ['', ...lines];
}

function candidateLines({ mounted, candidates, swept, reach }: FitReport, figures: Figures): string[] {
  if (candidates.length === 0) return ['No candidates.'];
  const caliperOf = ({ mounting, caliperDeg }: MountedCandidate) =>
    caliperFigures(mounted[mounting].setup.design.corner, caliperDeg);
  const mountedAs: Column = {
    title: 'Mounted',
    isText: true,
    cell: ({ mounting }) => mountingInWords(mounted[mounting].mounting),
  };
  const worst = (candidatesSwept: readonly SweptCandidate<MountedCandidate>[]): Column => ({
    title: 'Worst over travel and lock',
    isText: true,
    cell: (_, k) => worstInWords(candidatesSwept[k], figures),
  });
  const columns: Column[] = [
    { title: 'No.', cell: (_, k) => String(k + 1) },
    ...(mounted.length > 1 ? [mountedAs] : []),
    { title: 'Caliper', cell: ({ caliperDeg }) => signedAngle(caliperDeg) },
    { title: 'Hub', cell: ({ hubDeg }) => signedAngle(hubDeg) },
    {
      title: 'Bleed screw',
      cell(candidate) {
        const { bleedScrewDeg } = caliperOf(candidate);
        return bleedScrewDeg === undefined ? '' : signedAngle(bleedScrewDeg);
      },
    },
    { title: 'Ahead of axle', cell: (candidate) => figures.signedPlace(caliperOf(candidate).aheadMm) },
    {
      title: 'To lower arm',
      cell({ mounting, caliperDeg }) {
        const arm = mounted[mounting].toLowerArm(caliperDeg);
        return arm === undefined ? '' : figures.place(arm.clearanceMm);
      },
    },
    {
      title: 'Margin at ride height',
      isText: true,
      cell: ({ mounting, least }) => marginInWords(namesOf(mounted[mounting].study), least, figures),
    },
    ...(swept === undefined ? [] : [worst(swept)]),
    ...(reach === undefined
      ? []
      : [{ title: 'Bolts', isText: true, cell: (_, k) => boltsCell(reach[k]) } satisfies Column]),
  ];
  const order = swept?.map(({ candidate }) => candidate) ?? candidates;
  const rows = order.map((candidate, k) => columns.map(({ cell }) => cell(candidate, k)));
  const widths = columns.map(({ title }, i) => Math.max(title.length, ...rows.map((row) => row[i].length)));
  const line = (row: readonly string[]) =>
    row
      .map((cell, i) => (columns[i].isText ? cell.padEnd(widths[i]) : cell.padStart(widths[i])))
      .join('  ')
      .trimEnd();
  const titles = columns.map(({ title }) => title);
  return [`Candidates, best first, lengths in ${figures.unitName}:`, line(titles), ...rows.map(line)];
}
