import type { Corner } from '../design/schema.ts';
import { shownPoint, shownSteer } from '../design/side.ts';
import { layoutOf } from '../layouts/layoutOf.ts';
import type { Alignment } from '../mechanism/pose.ts';
import type { Block, Section } from './content.ts';
import { angle, counted, type Figures, signedAngle } from './figures.ts';
import { lockedOutParts } from './lockedOut.ts';
import { coordinatesInWords } from './placeInWords.ts';
import { travelInWords } from './pose.ts';
import { type StepBlock, stepBlocks } from './ranges.ts';
import type { Checked, ReportInput } from './reportInput.ts';
import { shownInput, steeringFigures } from './steering.ts';
import { type MapCell, mapCells } from './sweepMap.ts';
import { farInWords } from './treatment.ts';

/** Largest number of rows and columns in the map's table. */
const MOST = 7;

/** Section with the map as a picture, and its figures at some of the steps. */
export function mapSection(checked: Checked, map: string, figures: Figures): Section {
  const { design, result, findings } = checked;
  const cells = mapCells(result, findings);
  const steering = steeringFigures(design.corner, figures);
  const far = farInWords(
    result.pairs.filter(({ moves }) => moves),
    result.settings.limitMm,
    figures,
  );
  const rows = spread(result.travelMm).reverse();
  const columns = spread(result.steer).sort(
    (a, b) =>
      shownSteer(design.corner.side, result.steer[a]) - shownSteer(design.corner.side, result.steer[b]),
  );
  return {
    title: 'Worst margin over travel and steer',
    blocks: [
      {
        kind: 'text',
        text: `Margin in ${figures.unitName}, without subtracting the error. Travel is vertical, ${steering.noun} displacement horizontal. ${fitInWords(checked)}`,
      },
      { kind: 'drawing', svg: map },
      {
        kind: 'table',
        columns: [
          { title: `Travel, ${steering.noun}` },
          ...columns.map((column) => ({
            title: steering.signed(shownInput(design.corner, result.steer[column])),
            figure: true,
          })),
        ],
        rows: rows.map((row) => ({
          cells: [
            figures.signedPlace(result.travelMm[row]),
            ...columns.map((column) => cellInWords(cells[row * result.steer.length + column], far, figures)),
          ],
        })),
      },
    ],
  };
}

/** Which pairs the map leaves out, and how many of these fall short. */
function fitInWords({ result, findings }: Checked): string {
  const fit = findings.pairs.filter(({ pair }) => !result.pairs[pair].moves);
  if (fit.length === 0) return 'All pairs are included.';
  const bad = fit.filter(({ state }) => state === 'touches' || state === 'tight' || state === 'unknown');
  const omitted = `${counted(fit.length, 'fit pair is', 'fit pairs are')} left out because ${fit.length === 1 ? 'its margin is' : 'their margins are'} the same at every pose`;
  return bad.length === 0
    ? `${omitted}; none of them falls short.`
    : `${omitted}; ${counted(bad.length, 'of them falls', 'of them fall')} short at every pose (see Fit).`;
}

function cellInWords(cell: MapCell, far: string, figures: Figures): string {
  if (cell.kind !== 'margin') return cell.kind;
  return cell.marginMm === Number.POSITIVE_INFINITY ? far : figures.least(cell.marginMm);
}

/** At most MOST indices: both ends, the index of zero if there is one, and the rest spread evenly. */
function spread(values: Float64Array): number[] {
  const last = values.length - 1;
  const count = Math.min(MOST, values.length);
  const picked = new Set(
    Array.from({ length: count }, (_, i) => Math.round((i * last) / Math.max(1, count - 1))),
  );
  const zero = values.indexOf(0);
  if (zero >= 0 && !picked.has(zero)) {
    const nearest = [...picked].filter((i) => i !== 0 && i !== last);
    nearest.sort((a, b) => Math.abs(a - zero) - Math.abs(b - zero));
    picked.delete(nearest[0]);
    picked.add(zero);
  }
  return [...picked].sort((a, b) => a - b);
}

/** Section on the poses that the mechanism does not reach, as ranges with reasons, and on the parts that are not proven. */
export function reachSection(input: ReportInput, figures: Figures): Section {
  const { result, findings } = input;
  const blocks = stepBlocks(findings.unreachableSteps, result.steer.length);
  const unproven = lockedOutParts(input, figures);
  const lockedOut: Block[] =
    unproven.length === 0
      ? []
      : [
          {
            kind: 'text',
            text: 'Between the steps, nothing is proven in these parts of travel and steering, because the suspension locks out there or nearby. Elsewhere it is shown to reach every pose.',
          },
          { kind: 'caution', items: unproven },
        ];
  const reached =
    findings.lockedOut?.length === 0
      ? 'None. The suspension reaches every pose of its travel and steering, at the steps and between them.'
      : `None. The suspension reaches every ${unproven.length === 0 ? 'pose' : 'step'} of the sweep.`;
  return {
    title: 'Poses out of reach',
    blocks:
      blocks.length === 0
        ? [{ kind: 'text', text: reached }, ...lockedOut]
        : [
            {
              kind: 'text',
              text: `Clearances at ${counted(findings.unreachableSteps.length, 'pose')} are unknown, because the suspension cannot reach ${findings.unreachableSteps.length === 1 ? 'it' : 'them'}:`,
            },
            { kind: 'list', items: blocks.map((block) => blockInWords(input, block, figures)) },
            ...lockedOut,
          ],
  };
}

function blockInWords(input: ReportInput, block: StepBlock, figures: Figures): string {
  const { corner } = input.design;
  const { travelMm, steer } = input.result;
  const travels = [...new Set([block.travelFrom, block.travelTo])].map((i) => travelMm[i]);
  const steers = [...new Set([block.steerFrom, block.steerTo])].map((i) => steer[i]);
  const travelWords = travels.map((value) => travelInWords(value, figures)).join(' to ');
  const steering = steeringFigures(corner, figures);
  const steerWords = steers.map((value) => steering.signed(shownInput(corner, value))).join(' to ');
  const steps = (block.travelTo - block.travelFrom + 1) * (block.steerTo - block.steerFrom + 1);
  const nearest = (values: number[]) => values.reduce((a, b) => (Math.abs(b) < Math.abs(a) ? b : a));
  const why = input.whyUnreachable(nearest(travels), nearest(steers));
  const range = `${travelWords}, ${steering.noun} ${steering.addUnit(steerWords)} (${counted(steps, 'step')})`;
  return why === undefined ? range : `${range}: ${why}`;
}

/** Section on the wheel alignment at ride height, straight ahead. */
export function alignmentSection(corner: Corner, alignment: Alignment, figures: Figures): Section {
  const [, halfTrack] = shownPoint(corner.side, [0, alignment.halfTrackMm, 0]);
  const rows: [string, string][] = [
    ['Camber (+ top outboard)', signedAngle(alignment.camberDeg, 2)],
    ['Toe (+ toe-in)', signedAngle(alignment.toeDeg, 2)],
    ['Caster (+ top rearward)', signedAngle(alignment.casterDeg, 2)],
    ['Kingpin inclination (+ top inboard)', signedAngle(alignment.kingpinInclinationDeg, 2)],
    ['Scrub radius', figures.placeWithUnit(alignment.scrubRadiusMm)],
    ['Mechanical trail', figures.placeWithUnit(alignment.mechanicalTrailMm)],
    ['Y of the contact centre', `${figures.signedPlace(halfTrack)} ${figures.unit}`],
    ['Wheel centre', coordinatesInWords(corner, alignment.wheelCentreMm, figures)],
    [layoutOf(corner.suspension).armAngleName, angle(alignment.armAngleDeg)],
  ];
  if (alignment.damperLengthMm !== undefined)
    rows.push(['Damper, mount to mount', figures.placeWithUnit(alignment.damperLengthMm)]);
  return {
    title: 'Alignment at ride height',
    blocks: [
      {
        kind: 'table',
        columns: [{ title: 'Quantity' }, { title: 'Value', figure: true }],
        rows: rows.map((cells) => ({ cells })),
      },
    ],
  };
}
