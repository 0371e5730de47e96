import type { Corner } from '../../design/schema.ts';
import type { AlignmentStep, AlignmentStudy } from '../../studies/limits/alignmentStudy.ts';
import type { Figures } from '../figures.ts';
import { steeringFigures } from '../steering.ts';
import { textColumns } from '../textColumns.ts';
import {
  ALIGNMENT_SIGNS,
  type AlignmentKey,
  type AlignmentTable,
  alignmentTable,
  STEERING_SIGNS,
} from './alignmentColumns.ts';

const WHEEL: readonly AlignmentKey[] = [
  'camberDeg',
  'toeDeg',
  'casterDeg',
  'kingpinInclinationDeg',
  'scrubRadiusMm',
  'mechanicalTrailMm',
  'halfTrackMm',
  'wheelRecessionMm',
];
const MOTION: readonly AlignmentKey[] = [
  'camberDegPerM',
  'toeDegPerM',
  'frontViewCentreYMm',
  'frontViewCentreHeightMm',
  'rollCentreHeightMm',
  'sideViewCentreXMm',
  'sideViewCentreHeightMm',
  'antiDivePercent',
  'damperLengthMm',
  'motionRatio',
];
const STEERING: readonly AlignmentKey[] = [
  'camberDeg',
  'casterDeg',
  'scrubRadiusMm',
  'mechanicalTrailMm',
  'halfTrackMm',
  'innerDeg',
  'outerDeg',
  'ackermannPercent',
  'turningCircleMm',
];

/** A table of the study, with its heading and the definitions of its figures. */
export interface TitledTable extends AlignmentTable {
  title: string;
  signs: readonly string[];
  /** Column along which the rows are ordered: that of travel, or of the steering input. */
  along: 0 | 1;
}

/** The tables of a study: wheel and motion over travel straight ahead, and steering at ride height. */
export function alignmentTables(corner: Corner, { steps }: AlignmentStudy, figures: Figures): TitledTable[] {
  const straight = steps.filter(({ steer }) => steer === 0).reverse();
  const atRide = steps.filter(({ travelMm }) => travelMm === 0);
  const table = (
    title: string,
    rows: readonly AlignmentStep[],
    keys: readonly AlignmentKey[],
    signs: readonly string[],
    along: TitledTable['along'],
  ): TitledTable => ({ title, signs, along, ...alignmentTable(corner, rows, keys, figures) });
  return [
    table('Alignment over travel, straight ahead', straight, WHEEL, ALIGNMENT_SIGNS.slice(0, 2), 0),
    table('Motion over travel, straight ahead', straight, MOTION, ALIGNMENT_SIGNS.slice(2), 0),
    table(
      `Over ${steeringFigures(corner, figures).noun}, at ride height`,
      atRide,
      STEERING,
      STEERING_SIGNS,
      1,
    ),
  ];
}

/** What is unknown because the file does not give it, a sentence each. */
export function unknownFigures({ vehicle, suspension }: Corner): string[] {
  const { wheelbase, frontBrakePercent, centreOfGravityHeight } = vehicle ?? {};
  const braking = Object.entries({ wheelbase, frontBrakePercent, centreOfGravityHeight }).flatMap(
    ([field, value]) => (value === undefined ? [`vehicle.${field}`] : []),
  );
  return [
    ...(wheelbase === undefined
      ? ['Ackermann and turning circle are unknown: type vehicle.wheelbase in the file.']
      : []),
    ...(braking.length > 0 ? [`Anti-dive is unknown: type ${braking.join(', ')} in the file.`] : []),
    ...(suspension.damper === undefined ? ['Motion ratio is unknown: the file has no damper mounts.'] : []),
  ];
}

/** Why steps are not reached, each reason once. */
export const unreachedReasons = ({ steps }: AlignmentStudy): string[] => [
  ...new Set(steps.flatMap(({ reason }) => (reason === undefined ? [] : [reason]))),
];

/** The study as text for a terminal. */
export function alignmentLines(corner: Corner, study: AlignmentStudy, figures: Figures): string[] {
  const tables = alignmentTables(corner, study, figures).flatMap(({ title, signs, titles, rows }) => {
    const text = textColumns(
      titles.map((heading) => ({ title: heading, right: true })),
      rows,
    );
    return [`${title}:`, text.titles, ...text.lines, '', ...signs, ''];
  });
  const reasons = unreachedReasons(study);
  return [
    ...tables,
    ...unknownFigures(corner),
    ...(reasons.length > 0 ? [`A dash in a whole row: the pose is not reached. ${reasons.join(' ')}`] : []),
  ];
}
