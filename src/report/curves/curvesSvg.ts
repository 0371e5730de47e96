import { shownSteer } from '../../design/side.ts';
import type { TightSpot } from '../../findings/findings.ts';
import { INK, SOFT, svgText } from '../drawings/ink.ts';
import { plain } from '../drawings/path.ts';
import type { Figures } from '../figures.ts';
import { steerInWords, travelInWords } from '../pose.ts';
import type { Checked } from '../reportInput.ts';
import { levels } from './levels.ts';
import { chartRange, labelEnd, lineOfSteer, lineOfTravel, linePath, seriesOf } from './series.ts';

const WIDTH = 640;
const HEIGHT = 168;
/** Plot areas, px. */
const TOP = 24;
const BOTTOM = 142;
const LEFTS = [44, 372] as const;
const PLOT = 256;
const TOUCH = '#c2410c';

/**
 * The clearance of a pair over travel and over steer as one SVG element: along the row and the column of steps nearest its
 * worst pose, with its target, contact, and the worst pose.
 */
export function curvesSvg(
  { design, result }: Pick<Checked, 'design' | 'result'>,
  pair: number,
  worst: TightSpot,
  figures: Figures,
): string {
  const { corner } = design;
  const [row, column] = [nearest(result.travelMm, worst.travelMm), nearest(result.steer, worst.steer)];
  const shown = (steer: number) => shownSteer(corner.side, steer);
  const steers = [...result.steer].map(shown);
  const travels = [...result.travelMm];
  const overTravel = seriesOf(result, pair, lineOfTravel(result, column));
  const overSteer = seriesOf(result, pair, lineOfSteer(result, row));
  const { targetMm, allowanceMm } = result.pairs[pair];
  const needMm = targetMm + allowanceMm;
  const { low, high } = chartRange([overTravel, overSteer], [needMm]);
  const y = (mm: number) => BOTTOM - ((Math.min(high, mm) - low) / (high - low)) * (BOTTOM - TOP);

  const chart = (
    left: number,
    title: string,
    values: readonly number[],
    at: readonly number[],
    /** From the left end to the right end. */
    [first, last]: readonly [number, number],
    ends: readonly [string, string],
    worstAt: number,
  ): string => {
    const x = (value: number) => left + ((value - first) / (last - first || 1)) * PLOT;
    const level = (mm: number, colour: string, dash: string) =>
      `<path d="M${left} ${plain(y(mm))}H${left + PLOT}" stroke="${colour}" stroke-width="1"${dash}/>`;
    const isLeft = at[labelEnd([values], needMm) === 'first' ? 0 : at.length - 1] === first;
    const labelAt = { size: 10, ...(isLeft ? {} : { anchor: 'end' as const }) };
    return [
      svgText(left, 14, title, { size: 11 }),
      ...levels(low, high, BOTTOM - TOP, figures.unit).map(
        ({ mm, label }) =>
          `<path d="M${left} ${plain(y(mm))}H${left + PLOT}" stroke="#d5d1c6" stroke-width="0.7"/>${svgText(left - 5, y(mm) + 3.5, label, { anchor: 'end', size: 10, fill: SOFT })}`,
      ),
      level(0, TOUCH, ''),
      needMm > 0 ? level(needMm, INK, ' stroke-dasharray="4 3"') : '',
      needMm > 0 ? svgText(isLeft ? left : left + PLOT, y(needMm) - 3, 'target', labelAt) : '',
      `<path d="${linePath(values, (i) => x(at[i]), y)}" fill="none" stroke="#2b3f9e" stroke-width="1.8"/>`,
      `<circle cx="${plain(x(worstAt))}" cy="${plain(y(worst.clearanceMm))}" r="4.5" fill="#fff" stroke="${INK}" stroke-width="1.5"/>`,
      svgText(left, BOTTOM + 15, ends[0], { size: 10, fill: SOFT }),
      svgText(left + PLOT, BOTTOM + 15, ends[1], { anchor: 'end', size: 10, fill: SOFT }),
    ].join('');
  };
  const { unit } = figures;
  const [leftLock, rightLock] = [Math.max(...steers), Math.min(...steers)];
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${WIDTH} ${HEIGHT}" width="${WIDTH}" height="${HEIGHT}" role="img" aria-label="Clearance over travel and over steer" font-family="system-ui, sans-serif">`,
    chart(
      LEFTS[0],
      `Over travel, ${steerInWords(corner, result.steer[column], figures).replace(/ \(.*/, '')} (${unit})`,
      overTravel.clearanceMm,
      travels,
      [travels[0], travels[travels.length - 1]],
      [travelInWords(travels[0], figures), travelInWords(travels[travels.length - 1], figures)],
      worst.travelMm,
    ),
    chart(
      LEFTS[1],
      `Over steer, ${travelInWords(result.travelMm[row], figures)} (${unit})`,
      overSteer.clearanceMm,
      steers,
      [leftLock, rightLock],
      ['left lock', 'right lock'],
      shown(worst.steer),
    ),
    '</svg>',
  ].join('\n');
}

/** Index of the step nearest a value. */
const nearest = (steps: Float64Array, value: number): number =>
  steps.reduce((best, step, i) => (Math.abs(step - value) < Math.abs(steps[best] - value) ? i : best), 0);
