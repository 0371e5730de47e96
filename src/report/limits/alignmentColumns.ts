import type { Corner } from '../../design/schema.ts';
import { shownPoint } from '../../design/side.ts';
import type { AlignmentStep, PoseFigures } from '../../studies/limits/alignmentStudy.ts';
import { csv } from '../csv.ts';
import { decimal, type Figures, MM_PER_UNIT } from '../figures.ts';
import { shownWheelAngleDeg } from '../pose.ts';
import { shownInput, steeringFigures, steeringTitle } from '../steering.ts';

/** Quantity of a column: it decides unit and decimals. `rate`: degrees per length of rise. */
type ColumnKind = 'angle' | 'length' | 'coarse' | 'rate' | 'ratio' | 'percent';

/** A figure of the alignment: a column of tables and CSV, a field in JSON. */
interface AlignmentColumn {
  /** Key in JSON files; with its unit. */
  key: string;
  title: string;
  kind: ColumnKind;
  /** mm, degrees, degrees per m, or as it is; undefined if unknown. Of the left corner. */
  of(figures: PoseFigures): number | undefined;
  /** Whether the figure changes its sign in a right corner. */
  mirrored?: boolean;
}

/** Every figure at a pose, in the order of the tables. */
const ALIGNMENT_COLUMNS = [
  { key: 'camberDeg', title: 'Camber', kind: 'angle', of: (f) => f.camberDeg },
  { key: 'toeDeg', title: 'Toe', kind: 'angle', of: (f) => f.toeDeg },
  { key: 'casterDeg', title: 'Caster', kind: 'angle', of: (f) => f.casterDeg },
  { key: 'kingpinInclinationDeg', title: 'KPI', kind: 'angle', of: (f) => f.kingpinInclinationDeg },
  { key: 'scrubRadiusMm', title: 'Scrub', kind: 'length', of: (f) => f.scrubRadiusMm },
  { key: 'mechanicalTrailMm', title: 'Trail', kind: 'length', of: (f) => f.mechanicalTrailMm },
  { key: 'halfTrackMm', title: 'Half track', kind: 'length', of: (f) => f.halfTrackMm },
  { key: 'wheelRecessionMm', title: 'Recession', kind: 'length', of: (f) => f.wheelRecessionMm },
  { key: 'camberDegPerM', title: 'Camber gain', kind: 'rate', of: (f) => f.rates?.camberDegPerM },
  { key: 'toeDegPerM', title: 'Bump steer', kind: 'rate', of: (f) => f.rates?.toeDegPerM },
  {
    key: 'frontViewCentreYMm',
    title: 'Front IC Y',
    kind: 'coarse',
    of: (f) => f.rates?.frontViewCentre?.acrossMm,
    mirrored: true,
  },
  {
    key: 'frontViewCentreHeightMm',
    title: 'Front IC height',
    kind: 'coarse',
    of: (f) => f.rates?.frontViewCentre?.heightMm,
  },
  {
    key: 'sideViewCentreXMm',
    title: 'Side IC X',
    kind: 'coarse',
    of: (f) => f.rates?.sideViewCentre?.acrossMm,
  },
  {
    key: 'sideViewCentreHeightMm',
    title: 'Side IC height',
    kind: 'coarse',
    of: (f) => f.rates?.sideViewCentre?.heightMm,
  },
  {
    key: 'rollCentreHeightMm',
    title: 'Roll centre',
    kind: 'length',
    of: (f) => f.rates?.rollCentreHeightMm,
  },
  { key: 'antiDivePercent', title: 'Anti-dive', kind: 'percent', of: (f) => f.antiDivePercent },
  { key: 'damperLengthMm', title: 'Damper', kind: 'length', of: (f) => f.damperLengthMm },
  { key: 'motionRatio', title: 'Motion ratio', kind: 'ratio', of: (f) => f.rates?.motionRatio },
  { key: 'innerDeg', title: 'Inner wheel', kind: 'angle', of: (f) => f.angles?.innerDeg },
  { key: 'outerDeg', title: 'Outer wheel', kind: 'angle', of: (f) => f.angles?.outerDeg },
  { key: 'ackermannPercent', title: 'Ackermann', kind: 'percent', of: (f) => f.ackermannPercent },
  { key: 'turningCircleMm', title: 'Turning circle', kind: 'coarse', of: (f) => f.turningCircleMm },
] as const satisfies readonly AlignmentColumn[];
export type AlignmentKey = (typeof ALIGNMENT_COLUMNS)[number]['key'];

/** A figure as shown, for the corner's own side; undefined if unknown. */
function shownValue(
  { side }: Corner,
  { of, mirrored = false }: AlignmentColumn,
  figures: PoseFigures,
): number | undefined {
  const value = of(figures);
  return value !== undefined && mirrored ? shownPoint(side, [0, value, 0])[1] : value;
}

/** The figures of a step under their keys, for JSON: null if unknown. */
export const figuresObject = (corner: Corner, figures: PoseFigures): Record<AlignmentKey, number | null> =>
  Object.fromEntries(
    ALIGNMENT_COLUMNS.map((column) => [column.key, shownValue(corner, column, figures) ?? null]),
  ) as Record<AlignmentKey, number | null>;

/** How a quantity is written, in the unit of the figures. */
interface Written {
  unit: string;
  /** Units of the figure in one unit of the value. */
  scale: number;
  decimals: number;
}

function writtenIn({ unit }: Figures, kind: ColumnKind): Written {
  const perLength = 1 / MM_PER_UNIT[unit];
  const isMetric = unit === 'mm';
  switch (kind) {
    case 'angle':
      return { unit: '°', scale: 1, decimals: 2 };
    case 'length':
      return { unit, scale: perLength, decimals: isMetric ? 1 : 2 };
    case 'coarse':
      return { unit, scale: perLength, decimals: isMetric ? 0 : 1 };
    case 'rate':
      return isMetric
        ? { unit: '°/m', scale: 1, decimals: 2 }
        : { unit: '°/in', scale: MM_PER_UNIT.in / 1000, decimals: 3 };
    case 'ratio':
      return { unit: '', scale: 1, decimals: 3 };
    case 'percent':
      return { unit: '%', scale: 1, decimals: 1 };
  }
}

/** Title with its unit: "Camber, °". */
const titleWithUnit = (title: string, unit: string): string => (unit === '' ? title : `${title}, ${unit}`);

/** A table of the alignment: titles, and the cells of each step. */
export interface AlignmentTable {
  titles: string[];
  rows: string[][];
  /** The numbers of the rows, in the units of the titles; undefined where a row has a dash. */
  values: (number | undefined)[][];
}

/**
 * The alignment at some steps as a table: travel, steering input, wheel angle, then the columns named. A column without any
 * known figure is left out. A step that is not reached shows a dash in each.
 */
export function alignmentTable(
  corner: Corner,
  steps: readonly AlignmentStep[],
  keys: readonly AlignmentKey[],
  figures: Figures,
): AlignmentTable {
  const steering = steeringFigures(corner, figures);
  const columns = ALIGNMENT_COLUMNS.filter(
    (column: AlignmentColumn) =>
      keys.includes(column.key as AlignmentKey) &&
      steps.some((step) => step.figures && column.of(step.figures) !== undefined),
  );
  const values = valuesAt(corner, steps, columns, figures);
  const decimals = columns.map(({ kind }) => writtenIn(figures, kind).decimals);
  return {
    titles: titlesOf(corner, columns, figures),
    rows: steps.map((step, row) => {
      const [, , wheelAngle, ...shown] = values[row];
      return [
        figures.signedPlace(step.travelMm),
        steering.signed(shownInput(corner, step.steer)),
        wheelAngle === undefined ? '–' : decimal(wheelAngle, 2, true),
        ...shown.map((value, i) => (value === undefined ? '–' : decimal(value, decimals[i]))),
      ];
    }),
    values,
  };
}

/** Titles of travel, steering input, wheel angle and columns, with their units. */
const titlesOf = (corner: Corner, columns: readonly AlignmentColumn[], figures: Figures): string[] => [
  titleWithUnit('Travel', figures.unit),
  titleWithUnit(steeringTitle(corner), steeringFigures(corner, figures).unit),
  'Wheel angle, °',
  ...columns.map(({ title, kind }) => titleWithUnit(title, writtenIn(figures, kind).unit)),
];

/** The numbers of each step in the units of `titlesOf`; undefined if unknown. */
function valuesAt(
  corner: Corner,
  steps: readonly AlignmentStep[],
  columns: readonly AlignmentColumn[],
  figures: Figures,
): (number | undefined)[][] {
  const perLength = MM_PER_UNIT[figures.unit];
  const perInput = steeringFigures(corner, figures).unit === figures.unit ? perLength : 1;
  return steps.map((step) => [
    step.travelMm / perLength,
    shownInput(corner, step.steer) / perInput,
    step.figures && shownWheelAngleDeg(corner, step.figures.roadWheelAngleDeg),
    ...columns.map((column) => {
      const value = step.figures && shownValue(corner, column, step.figures);
      return value === undefined ? undefined : value * writtenIn(figures, column.kind).scale;
    }),
  ]);
}

/** Decimals of travel and steering input in CSV, and of all other figures. */
const CSV_DECIMALS = { place: 4, figure: 5 };

/**
 * All figures at all steps as CSV in plain numbers, one line a step: travel, steering input, wheel angle, then
 * every column. Empty where a figure is unknown.
 */
export function alignmentCsv(corner: Corner, steps: readonly AlignmentStep[], figures: Figures): string {
  const number = (value: number | undefined, column: number) =>
    value === undefined
      ? undefined
      : Number(value.toFixed(column < 2 ? CSV_DECIMALS.place : CSV_DECIMALS.figure)) + 0;
  return csv(
    titlesOf(corner, ALIGNMENT_COLUMNS, figures),
    valuesAt(corner, steps, ALIGNMENT_COLUMNS, figures).map((values) => values.map(number)),
  );
}

/** Definitions and signs of the figures, a sentence each. */
export const ALIGNMENT_SIGNS: readonly string[] = [
  'Signs and terms are those of ISO 8855 and SAE J670: camber + top outboard, toe + toe-in, caster + top rearward, kingpin inclination (KPI) + top inboard, scrub radius + contact centre outboard of the steering axis, trail + contact centre behind it. Toe and steer are of this wheel alone.',
  'Recession is the motion of the wheel centre rearward from ride height, straight ahead.',
  'Rates are per rise of the wheel centre with the steering held. Instant centres (IC) are those of the upright in the planes through the contact centre, across and along the vehicle; X and Y are in vehicle axes, heights from the ground under the tyre. A dash: the upright does not turn in that view.',
  'The roll centre is that of an axle whose other wheel is at the mirrored pose: where the line from the contact centre through the front IC crosses the centre plane.',
  'Motion ratio is the shortening of the damper per rise of the wheel centre.',
];

/** Definitions of the figures over steer, a sentence each. */
export const STEERING_SIGNS: readonly string[] = [
  'Inner and outer wheel are the steer angles of an axle with this corner and its mirror image, from straight ahead at the same travel.',
  'Ackermann is 100 (inner − outer) / (inner − true outer), with cot(true outer) = cot(inner) + distance between the steering axes at the ground / wheelbase. Other definitions give other figures.',
  'The turning circle is that of the contact centre of the outer tyre, which rolls without side slip about a point on the line of the rear axle. The front axle line is X = 0.',
];
