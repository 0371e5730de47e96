import type { InputRecord } from '../design/design.ts';
import { csv } from './csv.ts';
import { type Figures, MM_PER_UNIT } from './figures.ts';
import { limitRows } from './limitRows.ts';
import { alignmentCsv } from './limits/alignmentColumns.ts';
import { numberedRows } from './pairRow.ts';
import { shownWheelAngleDeg } from './pose.ts';
import { provenAtLeastMm } from './proven.ts';
import type { ReportInput } from './reportInput.ts';
import { roundedTo } from './rounded.ts';
import { shownInput, steeringFigures } from './steering.ts';

export interface CsvTable {
  name: string;
  data: string;
}

const DECIMALS = 5;

/**
 * The tables of a report as CSV texts: pairs, joints and dampers, inputs, and the alignment if it is computed. Numbers are
 * plain, lengths in the unit of `figures`. Places are of the worst pose.
 */
export function tablesCsv(input: ReportInput, figures: Figures): CsvTable[] {
  const { alignment } = input.limits ?? {};
  return [
    { name: 'pairs.csv', data: pairsCsv(input, figures) },
    { name: 'limits.csv', data: limitsCsv(input, figures) },
    { name: 'inputs.csv', data: inputsCsv(input, figures) },
    ...(alignment === undefined
      ? []
      : [{ name: 'alignment.csv', data: alignmentCsv(input.design.corner, alignment.steps, figures) }]),
  ];
}

/** A number for a cell; undefined if there is none. */
const number = (value: number | undefined): number | undefined =>
  value === undefined ? undefined : (roundedTo(value, DECIMALS) ?? undefined);

function pairsCsv(input: ReportInput, figures: Figures): string {
  const { design, solids } = input;
  const { corner } = design;
  const { noun, unit: steerUnit } = steeringFigures(corner, figures);
  const inUnit = (mm: number | undefined) =>
    number(mm === undefined ? undefined : mm / MM_PER_UNIT[figures.unit]);
  const steering = (value: number) => (steerUnit === '°' ? number(value) : inUnit(value));
  const length = (title: string) => `${title}, ${figures.unit}`;
  return csv(
    [
      'No.',
      'State',
      'First part',
      'Second part',
      'First id',
      'Second id',
      length('Clearance'),
      length('Mesh error'),
      length('Nowhere below'),
      length('Target'),
      'Origin of the target',
      length('Allowances'),
      length('Margin'),
      'Moves',
      length('Travel'),
      `${noun[0].toUpperCase()}${noun.slice(1)}, ${steerUnit}`,
      'Wheel angle, °',
      'Place on the first part',
      'Place on the second part',
    ],
    numberedRows(input, figures).map(({ row, number: no }) => {
      const { finding, pair } = row;
      const { worst } = finding;
      return [
        Number(no),
        row.state,
        row.labelA,
        row.labelB,
        solids[pair.a].id,
        solids[pair.b].id,
        inUnit(worst?.clearanceMm),
        inUnit(worst?.errorMm),
        inUnit(pair.moves ? provenAtLeastMm(input, finding) : undefined),
        inUnit(pair.targetMm),
        pair.targetOrigin,
        inUnit(pair.allowanceMm),
        inUnit(worst?.marginMm),
        pair.moves ? 'yes' : 'no',
        ...(worst === undefined || !pair.moves
          ? [undefined, undefined, undefined]
          : [
              inUnit(worst.travelMm),
              steering(shownInput(corner, worst.steer)),
              number(shownWheelAngleDeg(corner, worst.roadWheelAngleDeg)),
            ]),
        row.placeA,
        row.placeB,
      ];
    }),
  );
}

function limitsCsv(input: ReportInput, figures: Figures): string {
  return csv(
    [
      'State',
      'Limit',
      'Used',
      'Proven',
      'Allowed',
      'Left',
      'Travel',
      'Steering',
      'Wheel angle',
      'Origin of the allowed value',
    ],
    limitRows(input, figures).map((row) =>
      [
        row.finding.state,
        row.name,
        row.used,
        row.proven,
        row.allowed,
        row.left,
        row.travel,
        row.steer,
        row.wheelAngle,
        row.from,
      ].map((cell) => cell.replaceAll('−', '-')),
    ),
  );
}

function inputsCsv({ design }: ReportInput, figures: Figures): string {
  const value = (input: InputRecord) =>
    input.quantity === 'length' && typeof input.value === 'number'
      ? number(input.value / MM_PER_UNIT[figures.unit])
      : typeof input.value === 'number'
        ? input.value
        : String(input.value);
  const unitOf = ({ quantity }: InputRecord) =>
    quantity === 'length' ? figures.unit : quantity === 'angle' ? '°' : '';
  return csv(
    ['Path', 'As typed', 'In use', 'Unit', '±', 'Assumed'],
    design.inputs.map((input) => [
      input.path,
      input.typed === undefined ? '' : String(input.typed),
      value(input),
      unitOf(input),
      input.plusMinus === undefined
        ? undefined
        : number(input.plusMinus.amount / (input.quantity === 'length' ? MM_PER_UNIT[figures.unit] : 1)),
      input.assumed ? 'yes' : 'no',
    ]),
  );
}
