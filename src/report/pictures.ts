import type { PairFinding, TightSpot } from '../findings/findings.ts';
import { midpoint } from '../math/vec.ts';
import type { SolidIds } from '../studies/sensitivity/sensitivity.ts';
import { curvesSvg } from './curves/curvesSvg.ts';
import { cornerPicture } from './drawings/cornerPicture.ts';
import { gapSectionSvg } from './drawings/gapSection.ts';
import { balloon } from './drawings/ink.ts';
import { figuresIn } from './figures.ts';
import { carriersAt } from './placeInWords.ts';
import type { Checked, ReportInput } from './reportInput.ts';
import { sweepMapSvg } from './sweepMap.ts';

/** A pair whose worst pose gets a block of its own, with its drawings as SVG elements. */
export interface SpotPictures {
  /** Index of the pair. */
  pair: number;
  section: string;
  curves: string;
}

/** The drawings of a report, each one SVG element. */
export interface ReportPictures {
  /** The corner at the worst pose of the first spot; empty if there is none. */
  corner: string;
  map: string;
  spots: readonly SpotPictures[];
}

/** Pairs that are shown whatever their margin, and the largest number of pairs that fall short. */
const LEAST_SPOTS = 3;
const MOST_SPOTS = 8;

/** The tightest pairs: those that fall short, and at least three. */
export function spotsOf({ findings }: Pick<Checked, 'findings'>): (PairFinding & { worst: TightSpot })[] {
  const measured = findings.pairs
    .filter((finding): finding is PairFinding & { worst: TightSpot } => finding.worst !== undefined)
    .toSorted((a, b) => a.worst.marginMm - b.worst.marginMm);
  const short = measured.filter(({ state }) => state !== 'clear').length;
  return measured.slice(0, Math.min(MOST_SPOTS, Math.max(LEAST_SPOTS, short)));
}

/** The tightest pairs, by the ids of their solids. */
export const spotIds = (checked: Pick<Checked, 'findings' | 'solids' | 'result'>): SolidIds[] =>
  spotsOf(checked).map(({ pair }) => {
    const { a, b } = checked.result.pairs[pair];
    return [checked.solids[a].id, checked.solids[b].id];
  });

const SIZE = { width: 420, height: 340 };

/** The corner at the worst pose of its tightest pair, with the numbers of the spots that have the same pose. */
function cornerSvg({ design, solids, result }: ReportInput, spots: ReturnType<typeof spotsOf>): string {
  const [first] = spots;
  if (first === undefined) return '';
  const { corner } = design;
  const { a, b } = result.pairs[first.pair];
  const frame = { left: 2, top: 2, width: SIZE.width - 4, height: SIZE.height - 4 };
  const picture = cornerPicture(solids, carriersAt(corner, first.worst), corner, frame, [a, b]);
  const marks = spots.flatMap(({ worst }, k) => {
    if (worst.travelMm !== first.worst.travelMm || worst.steer !== first.worst.steer) return [];
    const [x, y] = picture.place(midpoint(worst.pointA, worst.pointB));
    // Apart from each other and from the spot, at the end of a line.
    const [toX, toY] = [x + 46 + 30 * k, y - 62 + 26 * k];
    return [
      `<path d="M${x.toFixed(1)} ${y.toFixed(1)}L${toX.toFixed(1)} ${toY.toFixed(1)}" stroke="#1d2327" stroke-width="0.9"/><circle cx="${x.toFixed(1)}" cy="${y.toFixed(1)}" r="2.4"/>${balloon(toX, toY, String(k + 1))}`,
    ];
  });
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${SIZE.width} ${SIZE.height}" width="${SIZE.width}" height="${SIZE.height}" role="img" aria-label="The corner at the worst pose, from inboard and the rear" font-family="system-ui, sans-serif">`,
    picture.svg,
    ...marks,
    '</svg>',
  ].join('\n');
}

/** Draws the pictures of a report, and pauses after each, so that a page can handle its keys in between. */
export function* drawPictures(input: ReportInput): Generator<undefined, ReportPictures> {
  const { design, result, findings, unit, limits } = input;
  const figures = figuresIn(unit);
  const spots = spotsOf(input);
  const corner = cornerSvg(input, spots);
  yield;
  const map = sweepMapSvg(design.corner, result, findings, figures, limits?.stops);
  const pictures: SpotPictures[] = [];
  for (const { pair, worst } of spots) {
    yield;
    const curves = result.pairs[pair].moves ? curvesSvg(input, pair, worst, figures) : '';
    pictures.push({ pair, section: gapSectionSvg(input, result.pairs[pair], worst, figures), curves });
  }
  return { corner, map, spots: pictures };
}

/** The pictures of a report, drawn at once. */
export function picturesOf(input: ReportInput): ReportPictures {
  const drawing = drawPictures(input);
  let step = drawing.next();
  while (!step.done) step = drawing.next();
  return step.value;
}
