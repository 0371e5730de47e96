import type { Corner } from '../design/schema.ts';
import type { Findings } from '../findings/findings.ts';
import { stateOf, worstMargins } from '../findings/findingsOf.ts';
import type { StopStudy } from '../studies/limits/stops.ts';
import { numberedStretches, type UsableRegion } from '../studies/limits/usableRegion.ts';
import { POSE_STATES, type SweepResult } from '../sweep/result.ts';
import { escapeHtml } from './escape.ts';
import { decimal, type Figures } from './figures.ts';
import { limitHeading } from './limitRows.ts';
import { shownInput, steeringFigures } from './steering.ts';
import { leastMargin } from './verdict.ts';

/** One step of the map. `marginMm`: worst margin; +Infinity if every pair is far. */
export type MapCell =
  | { kind: 'touches' | 'binds' }
  | { kind: 'unreachable' | 'unknown' | 'pending' }
  | { kind: 'margin'; marginMm: number };

/**
 * The map's cell for each step, over all pairs that move relative to each other. Fit pairs are left out: they are the same
 * at every step and would hide the others. A contact, or a joint or damper that binds, outweighs an unknown pair.
 */
export function mapCells(result: SweepResult, { bindingSteps }: Pick<Findings, 'bindingSteps'>): MapCell[] {
  const steps = result.poseState.length;
  const moving = result.pairs.flatMap(({ moves }, pair) => (moves ? [pair] : []));
  const margins = worstMargins(result, moving);
  const touches = (pair: number, step: number): boolean => {
    const { targetMm, allowanceMm } = result.pairs[pair];
    const clearanceMm = result.clearanceMm[pair * steps + step];
    const errorMm = result.errorMm[pair * steps + step];
    return stateOf(clearanceMm, errorMm, clearanceMm - targetMm - allowanceMm) === 'touches';
  };
  return Array.from({ length: steps }, (_, step): MapCell => {
    const pose = POSE_STATES[result.poseState[step]];
    if (pose !== 'solved') return { kind: pose };
    if (moving.some((pair) => touches(pair, step))) return { kind: 'touches' };
    if (bindingSteps[step] === 1) return { kind: 'binds' };
    return Number.isNaN(margins[step]) ? { kind: 'unknown' } : { kind: 'margin', marginMm: margins[step] };
  });
}

/** Margin at which the tint is weakest, mm, and the number of tint steps below it. */
const FADE_MM = 20;
const LEVELS = 8;
const WIDTH = 640;
const HEIGHT = 420;
const LEFT = 104;
const TOP = 12;
const INK = '#1d2327';
const SOFT = '#5d666c';
const BLUE = '#2b3f9e';
const TOUCH = '#c2410c';

/** Tint step: 0 for a margin of FADE_MM or more, LEVELS for no margin. */
function tintLevel(marginMm: number): number {
  if (marginMm <= 0) return LEVELS;
  return Math.max(0, Math.ceil(LEVELS * (1 - marginMm / FADE_MM)) - 1);
}
const opacity = (level: number) => decimal(0.06 + (0.84 * level) / LEVELS, 3);

function fillOf(cell: MapCell): string {
  if (cell.kind === 'margin') return `fill="${BLUE}" fill-opacity="${opacity(tintLevel(cell.marginMm))}"`;
  if (cell.kind === 'touches') return 'fill="url(#sweep-map-touches)"';
  if (cell.kind === 'binds') return 'fill="url(#sweep-map-binds)"';
  return cell.kind === 'unreachable' ? '' : 'fill="url(#sweep-map-unknown)"';
}

type Measured = Extract<MapCell, { kind: 'touches' | 'binds' | 'margin' }>;
const isMeasured = (cell: MapCell | undefined): cell is Measured =>
  cell?.kind === 'touches' || cell?.kind === 'binds' || cell?.kind === 'margin';
const isShort = (cell: Measured) => cell.kind !== 'margin' || cell.marginMm < 0;

/**
 * The worst margin over travel (vertical) and steer (horizontal, left lock on the left as on the screen), without fit
 * pairs, as one SVG element. Every step is one cell of the same size. Touching cells are hatched, binding cells are hatched
 * the other way, a small margin has a strong tint. A line surrounds the steps that miss their target; unreachable steps are
 * blank inside a dotted edge. `stops`: its usable region is outlined, if something ends it.
 */
export function sweepMapSvg(
  corner: Corner,
  result: SweepResult,
  findings: Findings,
  figures: Figures,
  stops?: Pick<StopStudy, 'region' | 'failing'>,
): string {
  const rows = result.travelMm.length;
  const columns = result.steer.length;
  const cells = mapCells(result, findings);
  /** The last steer step is the left lock of a left corner, and the right lock of a right one. */
  const flip = corner.side === 'left';
  /** Step of the cell in a column from the left and a row from the bottom. */
  const stepAt = (column: number, row: number) => row * columns + (flip ? columns - 1 - column : column);
  const [w, h] = [WIDTH / columns, HEIGHT / rows];
  const x = (column: number) => decimal(LEFT + column * w, 2);
  const y = (row: number) => decimal(TOP + HEIGHT - row * h, 2);
  const drawn: string[] = [];
  const at = (column: number, row: number): MapCell | undefined =>
    column < 0 || row < 0 || column >= columns || row >= rows ? undefined : cells[stepAt(column, row)];
  for (let row = 0; row < rows; row++) {
    let column = 0;
    while (column < columns) {
      const fill = fillOf(cells[stepAt(column, row)]);
      let end = column + 1;
      while (end < columns && fillOf(cells[stepAt(end, row)]) === fill) end++;
      const box = `x="${x(column)}" y="${y(row + 1)}" width="${decimal((end - column) * w, 2)}" height="${decimal(h, 2)}"`;
      if (fill !== '') drawn.push(`<rect ${box} ${fill}/>`);
      column = end;
    }
  }
  /** SVG path of the edges between two cells for which `differs`; a cell outside the map is undefined. */
  const edges = (differs: (one: MapCell | undefined, other: MapCell | undefined) => boolean): string => {
    const found: string[] = [];
    for (let row = -1; row < rows; row++) {
      for (let column = -1; column < columns; column++) {
        const one = at(column, row);
        if (row >= 0 && differs(one, at(column + 1, row)))
          found.push(`M${x(column + 1)} ${y(row)}V${y(row + 1)}`);
        if (column >= 0 && differs(one, at(column, row + 1)))
          found.push(`M${x(column)} ${y(row + 1)}H${x(column + 1)}`);
      }
    }
    return found.join('');
  };
  const target = edges(
    (one, other) => isMeasured(one) && isMeasured(other) && isShort(one) !== isShort(other),
  );
  const blank = (cell: MapCell | undefined) => cell?.kind === 'unreachable';
  const reach = edges((one, other) => blank(one) !== blank(other));
  const frame = edges(
    (one, other) => (one === undefined && !blank(other)) || (other === undefined && !blank(one)),
  );

  const moving = findings.pairs.filter(({ pair }) => result.pairs[pair].moves);
  const worst = leastMargin(moving)?.worst;
  const xOf = (steer: number) => {
    const place = placeAmong(result.steer, steer);
    return LEFT + ((flip ? columns - 1 - place : place) + 0.5) * w;
  };
  const yOf = (travelMm: number) => TOP + HEIGHT - (placeAmong(result.travelMm, travelMm) + 0.5) * h;
  const usable = stops === undefined || stops.failing.length === 0 ? '' : regionPath(stops.region, xOf, yOf);
  const kinds = new Set(cells.map((cell) => cell.kind));
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${LEFT + WIDTH + 12} ${TOP + HEIGHT + 112}" width="${LEFT + WIDTH + 12}" height="${TOP + HEIGHT + 112}" role="img" aria-label="Worst margin over travel and steer" font-family="system-ui, sans-serif" font-size="13" fill="${INK}">`,
    '<defs>',
    `<pattern id="sweep-map-touches" width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><rect width="7" height="7" fill="#fff"/><rect width="4.2" height="7" fill="${TOUCH}"/></pattern>`,
    `<pattern id="sweep-map-binds" width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(-45)"><rect width="7" height="7" fill="#fff"/><rect width="2.4" height="7" fill="${TOUCH}"/></pattern>`,
    `<pattern id="sweep-map-unknown" width="14" height="14" patternUnits="userSpaceOnUse"><text x="3" y="11" font-size="11" fill="${SOFT}">?</text></pattern>`,
    '</defs>',
    `<g shape-rendering="crispEdges">${drawn.join('')}</g>`,
    `<path d="${frame}" fill="none" stroke="${SOFT}" stroke-width="0.8"/>`,
    target === '' ? '' : `<path d="${target}" fill="none" stroke="${INK}" stroke-width="1.4"/>`,
    reach === ''
      ? ''
      : `<path d="${reach}" fill="none" stroke="${INK}" stroke-width="1.2" stroke-dasharray="2 3"/>`,
    usable === '' ? '' : `<path d="${usable}" ${USABLE}/>`,
    ...(usable === '' ? [] : numberedStretches(stops?.region)).map(({ number, at }) =>
      stretchNumber(number, xOf(at.steer), yOf(at.travelMm)),
    ),
    worst === undefined ? '' : worstMark(xOf(worst.steer), yOf(worst.travelMm)),
    ...travelScale(result, figures, h),
    ...steerScale(corner, result, figures, w, flip),
    ...legend(corner, kinds, figures, {
      target: target !== '',
      usable: usable !== '',
      worst: worst !== undefined,
    }),
    '</svg>',
  ]
    .filter((line) => line !== '')
    .join('\n');
}

/** Line around the part of travel and lock that can be used. */
const USABLE = `fill="none" stroke="${INK}" stroke-width="2" stroke-dasharray="7 3"`;

/** SVG path of the edges of a usable region. */
function regionPath(
  region: UsableRegion | undefined,
  xOf: (steer: number) => number,
  yOf: (travelMm: number) => number,
): string {
  const edges = (region?.edges ?? []).map((edge) => edge.flatMap(({ points }) => points));
  return edges
    .map((points) =>
      points.map(({ travelMm, steer }) => `${decimal(xOf(steer), 2)} ${decimal(yOf(travelMm), 2)}`).join('L'),
    )
    .map((path) => `M${path}Z`)
    .join('');
}

/** Fractional index of a value in ascending steps. */
function placeAmong(steps: Float64Array, value: number): number {
  const next = steps.findIndex((step) => step >= value);
  if (next <= 0) return next === 0 ? 0 : steps.length - 1;
  return next - (steps[next] - value) / (steps[next] - steps[next - 1]);
}

/** Number of a stretch of the usable part's edge, in a circle. */
const stretchNumber = (number: number, x: number, y: number): string =>
  `<circle cx="${decimal(x, 2)}" cy="${decimal(y, 2)}" r="9" fill="#fff" stroke="${INK}"/>${text(x, y + 4.5, String(number), 'middle')}`;

function worstMark(cx: number, cy: number): string {
  const [x, y] = [decimal(cx, 2), decimal(cy, 2)];
  return `<g fill="none" stroke="#fff" stroke-width="4"><circle cx="${x}" cy="${y}" r="6"/></g><g fill="none" stroke="${INK}" stroke-width="1.6"><circle cx="${x}" cy="${y}" r="6"/><path d="M${decimal(cx - 11, 2)} ${y}H${decimal(cx - 3, 2)}M${decimal(cx + 3, 2)} ${y}H${decimal(cx + 11, 2)}"/></g>`;
}

const text = (x: number, y: number, words: string, anchor: 'start' | 'middle' | 'end' = 'start') =>
  `<text x="${decimal(x, 2)}" y="${decimal(y, 2)}" text-anchor="${anchor}">${escapeHtml(words)}</text>`;

/** Indices of both ends and of zero, if zero is a step. */
const marksOf = (values: Float64Array): number[] => [
  ...new Set([0, values.indexOf(0), values.length - 1].filter((index) => index >= 0)),
];

function travelScale(result: SweepResult, figures: Figures, h: number): string[] {
  return marksOf(result.travelMm).flatMap((index) => {
    const travelMm = result.travelMm[index];
    const y = TOP + HEIGHT - (index + 0.5) * h;
    const word = travelMm > 0 ? 'bump ' : travelMm < 0 ? 'droop ' : '';
    return [
      `<path d="M${LEFT - 6} ${decimal(y, 2)}H${LEFT}" stroke="${INK}"/>`,
      text(LEFT - 9, Math.max(TOP + 11, y + 4), `${word}${figures.signedPlace(travelMm)}`, 'end'),
    ];
  });
}

function steerScale(
  corner: Corner,
  result: SweepResult,
  figures: Figures,
  w: number,
  flip: boolean,
): string[] {
  const last = result.steer.length - 1;
  const { noun, signed } = steeringFigures(corner, figures);
  return marksOf(result.steer).flatMap((index) => {
    const column = flip ? last - index : index;
    const x = LEFT + (column + 0.5) * w;
    const word = column === 0 ? `left lock, ${noun} ` : column === last ? `right lock, ${noun} ` : '';
    const anchor = column === 0 ? 'start' : column === last ? 'end' : 'middle';
    const shown = signed(shownInput(corner, result.steer[index]));
    return [
      `<path d="M${decimal(x, 2)} ${TOP + HEIGHT}v6" stroke="${INK}"/>`,
      text(
        column === 0 ? LEFT : column === last ? LEFT + WIDTH : x,
        TOP + HEIGHT + 21,
        `${word}${shown}`,
        anchor,
      ),
    ];
  });
}

function legend(
  corner: Corner,
  kinds: Set<MapCell['kind']>,
  figures: Figures,
  has: { target: boolean; usable: boolean; worst: boolean },
): string[] {
  const top = TOP + HEIGHT + 40;
  const out: string[] = [text(LEFT, top + 10, `Worst margin, ${figures.unit}:`)];
  const swatch = 26;
  const from = LEFT + 130;
  for (let level = LEVELS; level >= 0; level--) {
    const x = from + (LEVELS - level) * swatch;
    out.push(
      `<rect x="${x}" y="${top}" width="${swatch}" height="12" fill="${BLUE}" fill-opacity="${opacity(level)}"/>`,
    );
  }
  out.push(
    text(from + swatch, top + 26, figures.place(0), 'middle'),
    text(from + swatch * (1 + LEVELS / 2), top + 26, figures.place(FADE_MM / 2), 'middle'),
    text(from + swatch * LEVELS, top + 26, `${figures.place(FADE_MM - FADE_MM / LEVELS)} and more`, 'start'),
  );
  const entries: [boolean, string, string][] = [
    [kinds.has('touches'), '<rect width="22" height="12" fill="url(#sweep-map-touches)"/>', 'touches'],
    [
      kinds.has('binds'),
      '<rect width="22" height="12" fill="url(#sweep-map-binds)"/>',
      `${limitHeading(corner).toLowerCase()} binds`,
    ],
    [
      has.target,
      `<path d="M0 6H22" stroke="${INK}" stroke-width="1.4"/>`,
      'edge of the steps that miss a target',
    ],
    [
      kinds.has('unreachable'),
      `<rect width="22" height="12" fill="none" stroke="${INK}" stroke-width="1.2" stroke-dasharray="2 3"/>`,
      'cannot be reached',
    ],
    [
      kinds.has('unknown') || kinds.has('pending'),
      '<rect width="22" height="12" fill="url(#sweep-map-unknown)"/>',
      'unknown',
    ],
    [has.usable, `<path d="M0 6H22" ${USABLE}/>`, 'can be used, with the numbers of its ends'],
    [
      has.worst,
      `<circle cx="11" cy="6" r="5" fill="none" stroke="${INK}" stroke-width="1.6"/>`,
      'worst pose',
    ],
  ];
  let x = LEFT;
  for (const [present, mark, words] of entries) {
    if (!present) continue;
    out.push(`<g transform="translate(${x} ${top + 42})">${mark}</g>`, text(x + 28, top + 53, words));
    x += 44 + 7 * words.length;
  }
  return out;
}
