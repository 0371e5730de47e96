import type { Corner } from '../../design/schema.ts';
import { add, addScaled, normalize, sub, type Vec3 } from '../../math/vec.ts';
import type { Solid } from '../../solids/solid.ts';
import { entries } from '../../solids/wheelFrame.ts';
import { type CornerView, cornerView, type ViewedPart } from './cornerView.ts';
import type { Drawing, GuideLine } from './drawing.ts';
import type { CornerFacts } from './facts.ts';
import { INK } from './ink.ts';
import type { Point } from './ontoScreen.ts';
import { NARROW_MM, WIDE_MM } from './paperInk.ts';
import { anchorIn, type PartName } from './partNames.ts';
import { type Box, boxAround, boxOf, loopsPathOf } from './path.ts';
import { frontDimensions, sideDimensions, topDimensions } from './viewDimensions.ts';

/** A tyre this near the ground touches it on a drawing, mm. */
const LEAST_TO_GROUND_MM = 0.5;

/** Width of the lines between faces of a part, mm on paper. */
const FOLD_MM = 0.1;

/** Wheel and tyre surround the other parts, so they are drawn see-through. */
const isAround = ({ kind }: Pick<Solid, 'kind'>): boolean => kind === 'wheel' || kind === 'tyre';

/** Kinds of parts that are named, the most important first. Bolts of joints and fasteners are not. */
const NAMED = [
  'tyre',
  'wheel',
  'rotor',
  'caliper',
  'hub',
  'upright',
  'controlArm',
  'tieRod',
  'damper',
  'joint',
  'spacer',
  'tube',
  'plate',
  'box',
];

export const nameOf = (corner: Corner, { partIndex }: Solid): string =>
  corner.parts[partIndex].label ?? corner.parts[partIndex].id;

/** The indices of solids to name, the most important first, one of each part. */
export function namedSolids(solids: readonly Solid[], corner: Corner): number[] {
  const rank = (index: number) => NAMED.indexOf(corner.parts[solids[index].partIndex].kind);
  const seen = new Set<number>();
  return [...solids.keys()]
    .filter((index) => rank(index) >= 0 && solids[index].kind !== 'jointBolt')
    .sort((i, j) => rank(i) - rank(j))
    .filter((index) => !seen.has(solids[index].partIndex) && seen.add(solids[index].partIndex));
}

function partNames(view: CornerView, solids: readonly Solid[], corner: Corner): PartName[] {
  const over = (at: number) => view.parts.filter((other, i) => i > at && !isAround(solids[other.solid]));
  return namedSolids(solids, corner).flatMap((index) => {
    const at = view.parts.findIndex(({ solid }) => solid === index);
    const part = view.parts[at];
    const around = isAround(solids[index]);
    const hidden = around
      ? view.parts.filter(({ solid }) => solid !== index && solids[solid].kind !== 'tyre')
      : over(at);
    const anchor = anchorIn(part, hidden);
    return anchor === undefined ? [] : [{ words: nameOf(corner, solids[index]), anchor }];
  });
}

/** The outline around the others. */
function outermost(loops: readonly (readonly Point[])[]): readonly Point[] {
  const size = (loop: readonly Point[]) => {
    const { width, height } = boxAround(loop);
    return width * height;
  };
  return loops.reduce((most, loop) => (size(loop) > size(most) ? loop : most));
}

/** SVG of a view's parts: nearer ones over further ones, then the outlines of tyre and wheel over all. */
function partsSvg(view: CornerView, solids: readonly Solid[], ratio: number): string {
  const around = view.parts
    .filter(({ solid }) => isAround(solids[solid]))
    .sort((p, q) => q.box.width * q.box.height - p.box.width * p.box.height);
  const others = view.parts.filter(({ solid }) => !isAround(solids[solid]));
  // The inner half of the wide line is covered by the part itself, and so is every line within what it covers.
  const covering = ({ covers, folds }: ViewedPart, fill: string, widthMm: number) =>
    [
      `<path d="${covers}" fill="none" stroke="${INK}" stroke-width="${2 * widthMm * ratio}"/>`,
      `<path d="${covers}" fill="${fill}"/>`,
      folds === '' ? '' : `<path d="${folds}" fill="none" stroke="#888" stroke-width="${FOLD_MM * ratio}"/>`,
    ].join('');
  return [
    ...around.map((part) => covering({ ...part, folds: '' }, '#f3f3f0', NARROW_MM)),
    ...others.map((part) => covering(part, '#fff', WIDE_MM)),
    ...around.map(
      ({ loops }) =>
        `<path d="${loopsPathOf([outermost(loops)])}" fill="none" stroke="${INK}" stroke-width="${NARROW_MM * ratio}"/>`,
    ),
  ].join('\n');
}

/** A note if the tyre's lowest point is not on the ground. */
function tyreNotes({ wheel: { contact } }: CornerFacts): string[] {
  if (Math.abs(contact[2]) < LEAST_TO_GROUND_MM) return [];
  const where = contact[2] < 0 ? 'reaches below' : 'ends above';
  return [
    `The tyre is drawn unloaded: it ${where} the ground. Scrub radius and trail are at its lowest point.`,
  ];
}

/** A note if the tyre is drawn larger than its dimensions. */
export const growthNotes = (corner: Corner): string[] =>
  (entries(corner, 'tyre')[0]?.growth ?? 0) === 0
    ? []
    : ['The tyre is drawn with its growth in service; its dimensions are without.'];

interface ViewOf {
  key: 'front' | 'side' | 'top';
  title: string;
  seen: string;
  eye: Vec3;
}

const PROJECTION = 'Parallel projection, no perspective.';

/** Front, side and top view of a corner at ride height. */
export function viewDrawings(facts: CornerFacts, solids: readonly Solid[]): Drawing[] {
  const { corner } = facts;
  const outboard = corner.side === 'left' ? 1 : -1;
  const drawing = (
    { key, title, seen, eye }: ViewOf,
    rest: (view: CornerView) => Pick<Drawing, 'dimensions' | 'right' | 'up' | 'notes'> & { lines: Lines },
  ): Drawing => {
    const view = cornerView(solids, facts.carriers, corner, eye);
    const { lines, ...more } = rest(view);
    return {
      key,
      title,
      seen: `${seen} ${PROJECTION}`,
      box: view.box,
      parts: (ratio) => partsSvg(view, solids, ratio),
      guides: lines.guides,
      names: [...partNames(view, solids, corner), ...lines.names],
      ...more,
    };
  };
  const across = { words: 'outboard', sense: outboard } as const;
  const armNote = (from: string) =>
    Object.keys(facts.layout.arms).length === 0 ? [] : [`The length of an arm is from ${from} to its joint.`];
  return [
    drawing({ key: 'front', title: 'Front view', seen: 'Seen from the front.', eye: [1, 0, 0] }, (view) => ({
      lines: joined(
        wheelLines(facts, view, normalize(sub(facts.wheel.wheelCentre, facts.wheel.contact))),
        kingpinLine(facts, view),
        vehicleCentreLine(view),
        groundLine(view, boxOf([view.box, boxAround([view.project([0, 0, 0])])])),
      ),
      dimensions: frontDimensions(facts, view.project),
      right: across,
      up: { words: 'up', sense: 1 },
      notes: [...armNote('the line through its pivots'), ...tyreNotes(facts)],
    })),
    drawing(
      { key: 'side', title: 'Side view', seen: 'Seen from outboard.', eye: [0, outboard, 0] },
      (view) => ({
        lines: joined(
          kingpinLine(facts, view),
          crossLines(view.project(facts.wheel.wheelCentre)),
          groundLine(view, view.box),
        ),
        dimensions: sideDimensions(facts, view.project),
        right: { words: 'front', sense: outboard === 1 ? -1 : 1 },
        up: { words: 'up', sense: 1 },
        notes: [...tyreNotes(facts), ...growthNotes(corner)],
      }),
    ),
    drawing({ key: 'top', title: 'Top view', seen: 'Seen from above.', eye: [0, 0, 1] }, (view) => ({
      lines: joined(wheelLines(facts, view, facts.forward), vehicleCentreLine(view)),
      dimensions: topDimensions(facts, view.project),
      right: across,
      up: { words: 'front', sense: -1 },
      notes: armNote('each pivot'),
    })),
  ];
}

/** Lines that are no outlines, and names for them. */
export interface Lines {
  guides: readonly GuideLine[];
  names: readonly PartName[];
}

export const joined = (...lines: readonly Lines[]): Lines => ({
  guides: lines.flatMap(({ guides }) => guides),
  names: lines.flatMap(({ names }) => names),
});

/** A centre line, and its name at its end b. */
export const centreLine = (a: Point, b: Point, words: string): Lines => ({
  guides: [{ kind: 'centre', a, b }],
  names: [{ words, anchor: b }],
});

/** How far lines reach beyond what they are of, mm of the vehicle. */
const BEYOND_MM = 40;

/** The wheel axis, and the wheel plane along a direction in it. */
function wheelLines({ wheel, tyre }: CornerFacts, { project }: CornerView, inPlane: Vec3): Lines {
  const { wheelCentre, spin } = wheel;
  const middle = addScaled(wheelCentre, spin, tyre.planeMm);
  const on = (direction: Vec3, mm: number) => project(addScaled(middle, direction, mm));
  const half = 0.4 * tyre.radiusMm;
  const reach = tyre.radiusMm + BEYOND_MM;
  return joined(
    centreLine(on(spin, -half), on(spin, half), 'Wheel axis'),
    centreLine(on(inPlane, -reach), on(inPlane, reach), 'Wheel plane'),
  );
}

function kingpinLine({ wheel: { kingpinAtGround, kingpin } }: CornerFacts, view: CornerView): Lines {
  const [foot, through] = [view.project(kingpinAtGround), view.project(add(kingpinAtGround, kingpin))];
  const at = (y: number): Point => [
    foot[0] + ((foot[1] - y) / (foot[1] - through[1])) * (through[0] - foot[0]),
    y,
  ];
  return centreLine(at(foot[1] + BEYOND_MM), at(view.box.top), 'Kingpin axis');
}

/** The vehicle's centre line in a view from the front or from above. */
function vehicleCentreLine({ box, project }: CornerView): Lines {
  const [x] = project([0, 0, 0]);
  const words = 'Vehicle centre line';
  return { guides: [{ kind: 'centre', a: [x, box.top + box.height], b: [x, box.top], words }], names: [] };
}

function groundLine({ project }: CornerView, { left, width }: Box): Lines {
  const [, y] = project([0, 0, 0]);
  const [a, b]: [Point, Point] = [
    [left - BEYOND_MM, y],
    [left + width + BEYOND_MM, y],
  ];
  return { guides: [{ kind: 'ground', a, b, words: 'Ground' }], names: [] };
}

const crossLines = ([x, y]: Point): Lines =>
  joined(centreLine([x - BEYOND_MM, y], [x + BEYOND_MM, y], 'Wheel axis'), {
    guides: [{ kind: 'centre', a: [x, y - BEYOND_MM], b: [x, y + BEYOND_MM] }],
    names: [],
  });
