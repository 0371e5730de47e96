import type { TightSpot } from '../../findings/findings.ts';
import { applyDirection, applyPoint, compose, fromAxes, invert, type Rigid } from '../../math/rigid.ts';
import { screenAxes } from '../../math/screenAxes.ts';
import { distance, midpoint, type Vec3 } from '../../math/vec.ts';
import type { Carriers } from '../../mechanism/pose.ts';
import { frameOfGap } from '../../solids/gapFrame.ts';
import { sectionOf } from '../../solids/section.ts';
import { pointToSide } from '../../solids/simplePolygon.ts';
import type { Solid } from '../../solids/solid.ts';
import { thinOutline } from '../../solids/thinOutline.ts';
import { wheelAxisAt } from '../../solids/wheelFrame.ts';
import type { Pair } from '../../sweep/pair.ts';
import { meshBeside } from '../../sweep/setUp.ts';
import { type Figures, MM_PER_UNIT } from '../figures.ts';
import { carriersAt } from '../placeInWords.ts';
import type { Checked } from '../reportInput.ts';
import { clipped } from './clipped.ts';
import { cornerPicture } from './cornerPicture.ts';
import { balloon, FIRST, INK, PALE, SECOND, SHEET, SOFT, svgText } from './ink.ts';
import type { Point } from './ontoScreen.ts';
import { type Box, loopsPathOf, pathPoint, plain } from './path.ts';

/** Size of the drawing, px: the section at the left, key view and names at the right. */
const WIDTH = 640;
const HEIGHT = 300;
const SECTION: Box = { left: 1, top: 1, width: 410, height: HEIGHT - 2 };
const KEY: Box = { left: 426, top: 4, width: 206, height: 150 };
const NAMES_TOP = 176;
const NAME_PX = 17;
const MOST_NAMES = 7;
/** Characters of a name that fit beside the section. */
const NAME_CHARACTERS = 32;

/** Half the width of what is shown, mm: in proportion to the gap, within bounds. */
const IN_GAPS = 9;
const [LEAST_HALF_MM, MOST_HALF_MM] = [32, 110];
/** Deviation of drawn outlines from those of the meshes, px. */
const TOLERANCE_PX = 0.1;
/** Parts that show less than this are not named, px². */
const LEAST_NAMED_PX2 = 220;
const ARROW_PX = 26;

/** A part's piece of the section within the frame. */
interface Piece {
  solid: number;
  loops: Point[][];
}

/**
 * The section through both points of a pair's gap at its worst pose, as one SVG element: outlines of the meshes, the two
 * parts in their colours, the gap with its dimension, a scale bar, names, and a view of the whole corner with the place.
 * The plane contains the direction of the wheel axis, except where the gap is along it (`frameOfGap`). Parts that turn with
 * the wheel are cut as the bodies that they sweep, which is what is measured.
 */
export function gapSectionSvg(
  { design, solids }: Pick<Checked, 'design' | 'solids'>,
  pair: Pair,
  worst: TightSpot,
  figures: Figures,
): string {
  const { corner } = design;
  const carriers = carriersAt(corner, worst);
  const { pointA, pointB } = worst;
  const vehicleFromPlane = upright(frameOfGap(pointA, pointB, wheelAxisAt(corner, carriers)));
  const halfMm = Math.min(MOST_HALF_MM, Math.max(LEAST_HALF_MM, IN_GAPS * distance(pointA, pointB)));
  const pxPerMm = SECTION.width / (2 * halfMm);
  /** A right corner is the mirror image of the left one that is computed. */
  const sign = corner.side === 'left' ? 1 : -1;
  const onSheet = (x: number, y: number): Point => [
    SECTION.left + SECTION.width / 2 + sign * pxPerMm * x,
    SECTION.top + SECTION.height / 2 - pxPerMm * y,
  ];
  const pieces = piecesOf(solids, pair, carriers, vehicleFromPlane, onSheet);
  const planeFromVehicle = invert(vehicleFromPlane);
  const [a, b] = [pointA, pointB].map((point): Point => {
    const [x, y] = applyPoint(planeFromVehicle, point);
    return onSheet(x, y);
  });
  const words = figures.withErrorAndUnit(worst.clearanceMm, worst.errorMm);
  const label = labelBox(a, b, words);
  const key = cornerPicture(solids, carriers, corner, KEY, [pair.a, pair.b]);
  const [keyX, keyY] = key.place(midpoint(pointA, pointB));
  const named = pieces
    .map((piece) => ({ ...piece, at: roomiest(piece.loops, label) }))
    .filter(
      ({ solid, loops, at }) => at !== undefined && (isOf(pair, solid) || areaOf(loops) > LEAST_NAMED_PX2),
    )
    .slice(0, MOST_NAMES);
  const clip = `section-${pair.a}-${pair.b}`;
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${WIDTH} ${HEIGHT}" width="${WIDTH}" height="${HEIGHT}" role="img" aria-label="Section through the gap" font-family="system-ui, sans-serif">`,
    `<clipPath id="${clip}"><rect x="${SECTION.left}" y="${SECTION.top}" width="${SECTION.width}" height="${SECTION.height}"/></clipPath>`,
    `<rect x="${SECTION.left}" y="${SECTION.top}" width="${SECTION.width}" height="${SECTION.height}" fill="${SHEET}" stroke="${SOFT}" stroke-width="0.8"/>`,
    `<g clip-path="url(#${clip})">`,
    ...pieces.map(
      ({ solid, loops }) =>
        `<path d="${loopsPathOf(loops)}" fill="${fillOf(pair, solid)}" fill-rule="evenodd" stroke="${INK}" stroke-width="0.9"/>`,
    ),
    '</g>',
    ...named.flatMap(({ at }, k) => (at === undefined ? [] : [balloon(at[0], at[1], letter(k))])),
    gapDimension(a, b, words, label),
    scaleBar(pxPerMm, figures),
    key.svg,
    `<circle cx="${plain(keyX)}" cy="${plain(keyY)}" r="9" fill="none" stroke="#fff" stroke-width="4"/><circle cx="${plain(keyX)}" cy="${plain(keyY)}" r="9" fill="none" stroke="${INK}" stroke-width="1.8"/>`,
    svgText(KEY.left, NAMES_TOP - 4, sightInWords(vehicleFromPlane), { fill: SOFT }),
    ...named.map(({ solid }, k) => {
      const y = NAMES_TOP + 14 + NAME_PX * k;
      return `${balloon(KEY.left + 9, y - 4, letter(k))}${svgText(KEY.left + 24, y, shortened(solids[solid].label))}`;
    }),
    '</svg>',
  ].join('\n');
}

const letter = (index: number): string => String.fromCharCode(65 + index);
const isOf = ({ a, b }: Pair, solid: number): boolean => solid === a || solid === b;
const fillOf = ({ a, b }: Pair, solid: number): string => (solid === a ? FIRST : solid === b ? SECOND : PALE);
const shortened = (label: string): string =>
  label.length > NAME_CHARACTERS ? `${label.slice(0, NAME_CHARACTERS - 1)}…` : label;

/** The frame turned about its normal so that its y is as nearly up (for a level plane: forward) as it can be. */
function upright(vehicleFromPlane: Rigid): Rigid {
  const normal: Vec3 = applyDirection(vehicleFromPlane, [0, 0, 1]);
  const { right, up } = screenAxes(normal);
  return fromAxes(right, up, normal, applyPoint(vehicleFromPlane, [0, 0, 0]));
}

/** "Section, from the rear, inboard, above". */
function sightInWords(vehicleFromPlane: Rigid): string {
  const [x, y, z] = applyDirection(vehicleFromPlane, [0, 0, 1]);
  const least = 0.3;
  const words = [
    ...(Math.abs(x) > least ? [x > 0 ? 'the front' : 'the rear'] : []),
    ...(Math.abs(y) > least ? [y > 0 ? 'outboard' : 'inboard'] : []),
    ...(Math.abs(z) > least ? [z > 0 ? 'above' : 'below'] : []),
  ];
  return `Section, from ${words.join(', ')}`;
}

/** The sections of all parts within the frame; the pair's own parts last, so that they are on top and named first. */
function piecesOf(
  solids: readonly Solid[],
  pair: Pair,
  carriers: Carriers,
  vehicleFromPlane: Rigid,
  onSheet: (x: number, y: number) => Point,
): Piece[] {
  const found = solids.map((solid, index): Piece => {
    const other = index === pair.a ? solids[pair.b] : index === pair.b ? solids[pair.a] : undefined;
    const mesh = other === undefined ? solid.mesh : meshBeside(solid, other).mesh;
    const meshFromPlane = compose(invert(carriers[solid.carrier]), vehicleFromPlane);
    const outlines = sectionOf(mesh, meshFromPlane).flatMap(({ outer, holes }) => [outer, ...holes]);
    const loops = outlines
      .map((outline) => clipped(pointsOf(outline, onSheet), SECTION))
      .filter((loop) => loop.length > 2)
      .map((loop) => thinOutline(loop, TOLERANCE_PX));
    return { solid: index, loops };
  });
  const shown = found.filter(({ loops }) => loops.length > 0);
  return [
    ...shown.filter(({ solid }) => isOf(pair, solid)),
    ...shown.filter(({ solid }) => !isOf(pair, solid)),
  ];
}

const pointsOf = (outline: Float64Array, onSheet: (x: number, y: number) => Point): Point[] =>
  Array.from({ length: outline.length / 2 }, (_, i) => onSheet(outline[2 * i], outline[2 * i + 1]));

/** Area by the even-odd rule is not needed: loops of holes run the other way. */
const areaOf = (loops: readonly Point[][]): number =>
  Math.abs(
    loops.reduce(
      (sum, loop) =>
        loop.reduce((part, [x, y], i) => {
          const [u, v] = loop[(i + 1) % loop.length];
          return part + (x * v - u * y) / 2;
        }, sum),
      0,
    ),
  );

/** Spacing of the places that are tried for a letter, px. */
const TRY_PX = 7;

/** Room that a letter needs around its middle, px. */
const LETTER_PX = 10;

/** A place for a letter in a piece: of a grid, the point furthest from the piece's outline that the label does not hide. */
function roomiest(loops: readonly Point[][], label: Box): Point | undefined {
  const isHidden = (x: number, y: number) =>
    x > label.left - LETTER_PX &&
    x < label.left + label.width + LETTER_PX &&
    y > label.top - LETTER_PX &&
    y < label.top + label.height + LETTER_PX;
  let best: Point | undefined;
  let room = 0;
  for (let x = SECTION.left + TRY_PX; x < SECTION.left + SECTION.width; x += TRY_PX)
    for (let y = SECTION.top + TRY_PX; y < SECTION.top + SECTION.height - 24; y += TRY_PX) {
      const off = isHidden(x, y) ? 0 : insideBy(loops, [x, y]);
      if (off > room) [best, room] = [[x, y], off];
    }
  return best;
}

/** Distance of a point from the outlines if it is inside them by the even-odd rule, else 0. */
function insideBy(loops: readonly Point[][], [x, y]: Point): number {
  let crossings = 0;
  let nearest = Number.POSITIVE_INFINITY;
  for (const loop of loops)
    loop.forEach(([ax, ay], i) => {
      const [bx, by] = loop[(i + 1) % loop.length];
      if (ay > y !== by > y && x < ax + ((y - ay) * (bx - ax)) / (by - ay)) crossings++;
      nearest = Math.min(nearest, pointToSide([x, y], [ax, ay], [bx, by]));
    });
  return crossings % 2 === 1 ? nearest : 0;
}

/** Unit vector from a to b; to the right if they coincide. */
function directionOf(a: Point, b: Point): Point {
  const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
  return length > 1e-6 ? [(b[0] - a[0]) / length, (b[1] - a[1]) / length] : [1, 0];
}

const LABEL = { aside: 40, height: 19, perCharacter: 6.4, padding: 10 };

/** Where the clearance is written: beside the gap, square to it and upward, within the frame. */
function labelBox(a: Point, b: Point, words: string): Box {
  const [dx, dy] = directionOf(a, b);
  const up = dx > 0 || (dx === 0 && dy > 0) ? -1 : 1;
  const width = LABEL.perCharacter * words.length + LABEL.padding;
  const middle = (a[0] + b[0]) / 2 - up * LABEL.aside * dy;
  const most = SECTION.left + SECTION.width - width - 2;
  return {
    left: Math.min(most, Math.max(SECTION.left + 2, middle - width / 2)),
    top: (a[1] + b[1]) / 2 + up * LABEL.aside * dx - LABEL.height / 2,
    width,
    height: LABEL.height,
  };
}

/** Arrows from outside to both points, and the clearance beside them. */
function gapDimension(a: Point, b: Point, words: string, label: Box): string {
  const [dx, dy] = directionOf(a, b);
  const arrow = ([x, y]: Point, sign: number): string => {
    const from: Point = [x + sign * ARROW_PX * dx, y + sign * ARROW_PX * dy];
    const side = (turn: number): Point => [
      x + sign * 7 * dx - turn * 2.6 * dy,
      y + sign * 7 * dy + turn * 2.6 * dx,
    ];
    return `<path d="M${pathPoint(from)}L${pathPoint([x, y])}" stroke="${INK}" stroke-width="1.2"/><path d="M${pathPoint([x, y])}L${pathPoint(side(1))}L${pathPoint(side(-1))}Z" fill="${INK}"/>`;
  };
  const { left, top, width, height } = label;
  const middle: Point = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
  const to: Point = [left + width / 2, top + height / 2];
  return [
    `<path d="M${pathPoint(middle)}L${pathPoint(to)}" stroke="${INK}" stroke-width="0.7"/>`,
    arrow(a, -1),
    arrow(b, 1),
    `<rect x="${plain(left)}" y="${plain(top)}" width="${plain(width)}" height="${height}" rx="3" fill="#fff" stroke="${INK}" stroke-width="0.8"/>`,
    svgText(to[0], to[1] + 4, words, { anchor: 'middle', size: 12 }),
  ].join('');
}

/** Lengths of the scale bar in its unit, of which the longest that fits is drawn. */
const BARS: Readonly<Record<Figures['unit'], readonly (readonly [number, string])[]>> = {
  mm: [10, 20, 50, 100].map((mm) => [mm, `${mm} mm`]),
  in: [
    [0.25, '1/4 in'],
    [0.5, '1/2 in'],
    [1, '1 in'],
    [2, '2 in'],
    [4, '4 in'],
  ],
};
const MOST_BAR_PX = 130;

function scaleBar(pxPerMm: number, { unit }: Figures): string {
  const px = (length: number) => length * MM_PER_UNIT[unit] * pxPerMm;
  const [length, words] = BARS[unit].findLast(([one]) => px(one) <= MOST_BAR_PX) ?? BARS[unit][0];
  const [x, y] = [SECTION.left + 10, SECTION.top + SECTION.height - 12];
  const end = x + px(length);
  return `<rect x="${x - 6}" y="${y - 18}" width="${plain(px(length) + 12)}" height="25" fill="${SHEET}" fill-opacity="0.85"/><path d="M${x} ${y - 4}V${y + 4}M${x} ${y}H${plain(end)}M${plain(end)} ${y - 4}V${y + 4}" stroke="${INK}" stroke-width="1.4" fill="none"/>${svgText((x + end) / 2, y - 6, words, { anchor: 'middle', size: 10 })}`;
}
