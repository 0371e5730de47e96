import { rimDiameterMm } from '../../design/rimSize.ts';
import type { Corner } from '../../design/schema.ts';
import { tyreDimensions } from '../../design/tyreSize.ts';
import { compose, fromAxes, invert } from '../../math/rigid.ts';
import { type SectionRegion, sectionOf } from '../../solids/section.ts';
import type { Solid } from '../../solids/solid.ts';
import { thinOutline } from '../../solids/thinOutline.ts';
import { axialStack, entries, halfOverallWidthMm, vehicleFromWheelAxis } from '../../solids/wheelFrame.ts';
import type { Dimension, Linear } from './dimension.ts';
import type { Drawing } from './drawing.ts';
import type { CornerFacts } from './facts.ts';
import { hatchLines } from './hatch.ts';
import { INK } from './ink.ts';
import type { Point } from './ontoScreen.ts';
import { NARROW_MM, WIDE_MM } from './paperInk.ts';
import { anchorIn, type Covering, coveringOf, overlap, type PartName } from './partNames.ts';
import { type Box, boxOf, loopsPathOf, pathPoint } from './path.ts';
import { tyreFields } from './viewDimensions.ts';
import { centreLine, growthNotes, joined, type Lines, namedSolids, nameOf } from './views.ts';

/** Largest deviation of a drawn outline from the section of the mesh, mm of the vehicle. */
const TOLERANCE_MM = 0.1;
/** Distance of the hatch lines on paper, mm; one of these by the part's place in the file. */
const SPACINGS_MM = [1.4, 2, 1.7];
/** Pale tints by the part's place in the file, so that neighbours differ on a screen too. */
const TINTS = ['#e8eef6', '#f6efe2', '#e9f3e8', '#f5e8ea', '#efe9f5', '#e6f3f3', '#f4f1de'];

/** How far lines reach beyond the section, mm of the vehicle. */
const BEYOND_MM = 30;

/** One piece of a part that the plane cuts. */
interface CutPart {
  solid: number;
  covering: Covering;
}

/**
 * The section through the wheel axis, upright at ride height, seen from the front. Places are mm from the wheel centre along
 * the wheel axis, outboard to the right on a left corner, and mm down in the wheel's plane. Undefined if it cuts nothing.
 */
export function sectionDrawing(facts: CornerFacts, solids: readonly Solid[]): Drawing | undefined {
  const { corner, carriers } = facts;
  const outboard = corner.side === 'left' ? 1 : -1;
  const at = (axialMm: number, upMm: number): Point => [outboard * axialMm, -upMm];
  const vehicleFromPlane = compose(
    vehicleFromWheelAxis(corner.suspension),
    fromAxes([0, 1, 0], [0, 0, 1], [1, 0, 0], [0, 0, 0]),
  );
  const cut = solids.flatMap(({ shown, mesh, carrier }, solid): CutPart[] => {
    const regions = sectionOf(shown ?? mesh, compose(invert(carriers[carrier]), vehicleFromPlane));
    return regions.map((region) => ({ solid, covering: coveringOf(outlinesOf(region, at)) }));
  });
  if (cut.length === 0) return undefined;
  const drawn = atTheWheel(cut, solids);
  const box = boxOf(drawn.map(({ covering }) => covering.box));
  const lines = sectionLines(corner, at, [box.top - BEYOND_MM, box.top + box.height + BEYOND_MM]);
  return {
    key: 'section',
    title: 'Section at wheel axis',
    seen: 'Upright plane through the wheel axis, seen from the front; what is behind it is not drawn.',
    box,
    parts: (ratio) => drawn.map((part) => cutSvg(part, solids, ratio)).join('\n'),
    guides: lines.guides,
    dimensions: sectionDimensions(facts, at, box.top + box.height + BEYOND_MM),
    names: [...cutNames(drawn, solids, corner), ...lines.names],
    right: { words: 'outboard', sense: outboard },
    up: { words: 'up', sense: 1 },
    notes: [
      ...(drawn.length === cut.length ? [] : ['Parts that the plane cuts further inboard are not drawn.']),
      ...growthNotes(corner),
    ],
  };
}

/** The pieces of the section on wheel and upright, and those of other parts beside them. */
function atTheWheel(cut: readonly CutPart[], solids: readonly Solid[]): CutPart[] {
  const own = cut.filter(({ solid }) => ['wheel', 'upright'].includes(solids[solid].carrier));
  if (own.length === 0) return [...cut];
  const box = boxOf(own.map(({ covering }) => covering.box));
  const near = (one: Box) => overlap(one, box);
  return cut.filter(({ covering }) => near(covering.box));
}

function outlinesOf({ outer, holes }: SectionRegion, at: (x: number, y: number) => Point): Point[][] {
  return [outer, ...holes].map((outline) => {
    const points: Point[] = [];
    for (let i = 0; i < outline.length; i += 2) points.push(at(outline[i], outline[i + 1]));
    return thinOutline(points, TOLERANCE_MM);
  });
}

/** A part's cut faces: tinted and hatched, neighbours in the file differently. */
function cutSvg({ solid, covering: { loops } }: CutPart, solids: readonly Solid[], ratio: number): string {
  const { partIndex, kind } = solids[solid];
  const spacing = SPACINGS_MM[partIndex % SPACINGS_MM.length] * ratio;
  const hatch =
    kind === 'tyre'
      ? ''
      : hatchLines(loops, partIndex % 2 === 0 ? 1 : -1, spacing)
          .map(([a, b]) => `M${pathPoint(a)}L${pathPoint(b)}`)
          .join('');
  const fill = kind === 'tyre' ? '#f3f3f0' : TINTS[partIndex % TINTS.length];
  const width = kind === 'tyre' ? NARROW_MM : WIDE_MM;
  const outline = loopsPathOf(loops);
  return [
    `<path d="${outline}" fill="${fill}" fill-rule="evenodd"/>`,
    hatch === '' ? '' : `<path d="${hatch}" fill="none" stroke="#666" stroke-width="${0.1 * ratio}"/>`,
    `<path d="${outline}" fill="none" stroke="${INK}" stroke-width="${width * ratio}"/>`,
  ].join('');
}

const largest = (pieces: readonly CutPart[]): CutPart | undefined => {
  const size = ({ covering: { box } }: CutPart) => box.width * box.height;
  return pieces.reduce<CutPart | undefined>(
    (most, one) => (most && size(most) >= size(one) ? most : one),
    undefined,
  );
};

function cutNames(cut: readonly CutPart[], solids: readonly Solid[], corner: Corner): PartName[] {
  return namedSolids(solids, corner).flatMap((index) => {
    const { partIndex } = solids[index];
    const part = largest(cut.filter(({ solid }) => solids[solid].partIndex === partIndex));
    if (part === undefined) return [];
    const others = cut.filter((one) => one !== part && solids[one.solid].kind !== 'tyre');
    const anchor = anchorIn(
      part.covering,
      others.map(({ covering }) => covering),
    );
    return anchor === undefined ? [] : [{ words: nameOf(corner, solids[index]), anchor }];
  });
}

/** Wheel axis, wheel plane, hub face and the middle planes of the rotors, from `bottom` to `top`. */
function sectionLines(
  corner: Corner,
  at: (axialMm: number, upMm: number) => Point,
  [top, bottom]: readonly [number, number],
): Lines {
  const upright = (axialMm: number, words: string) => {
    const [x] = at(axialMm, 0);
    return centreLine([x, bottom], [x, top], words);
  };
  const { hubFaceY, rimCentreY } = axialStack(corner);
  const [wheel] = entries(corner, 'wheel');
  const reach = wheel === undefined ? 100 : halfOverallWidthMm(wheel) + 20;
  const middle = wheel === undefined ? 0 : rimCentreY(wheel);
  return joined(
    centreLine(at(middle - reach, 0), at(middle + reach, 0), 'Wheel axis'),
    ...(wheel === undefined ? [] : [upright(middle, 'Wheel plane')]),
    ...(hasHubFace(corner) ? [upright(hubFaceY, 'Hub face')] : []),
    ...rotorPlanes(corner).map(({ middleY }) => upright(middleY, 'Rotor plane')),
  );
}

const hasHubFace = (corner: Corner): boolean =>
  corner.suspension.hubFace !== undefined || entries(corner, 'hub').length > 0;

/** The rotors with y of the plane midway between their friction faces. */
function rotorPlanes(corner: Corner) {
  const { hubFaceY, rotorFaces } = axialStack(corner);
  return entries(corner, 'rotor').map((rotor) => {
    const { inboard, outboard } = rotorFaces(rotor);
    return { rotor, middleY: hubFaceY + (inboard + outboard) / 2 };
  });
}

/** Dimensions of the section. `bottom`: the lower end of the planes' lines. */
function sectionDimensions(
  facts: CornerFacts,
  at: (axialMm: number, upMm: number) => Point,
  bottom: number,
): Dimension[] {
  const { corner, isAssumed, fieldOf } = facts;
  const { hubFaceY, wheelFaceDepth, rimCentreY } = axialStack(corner);
  const [out, inner] = corner.side === 'left' ? (['right', 'left'] as const) : (['left', 'right'] as const);
  const [wheel] = entries(corner, 'wheel');
  const [tyre] = entries(corner, 'tyre');
  const below = (axialMm: number): Point => at(axialMm, -bottom);
  const dimension = (one: Omit<Linear, 'kind'>): Linear => ({ kind: 'linear', ...one });
  const found: Linear[] = [];
  if (wheel !== undefined) {
    const middle = rimCentreY(wheel);
    const seat = rimDiameterMm(wheel.diameterCode) / 2;
    const face = hubFaceY + wheelFaceDepth;
    const of = (...fields: string[]) => isAssumed(...fields.map((field) => fieldOf(wheel, field)));
    found.push(
      dimension({
        id: 'rimDiameter',
        name: 'Rim at bead seat',
        sign: 'Ø ',
        a: at(middle + wheel.width / 2, seat),
        b: at(middle + wheel.width / 2, -seat),
        lane: out,
        valueMm: 2 * seat,
        assumed: of('diameterCode'),
      }),
      dimension({
        id: 'rimWidth',
        name: 'Rim width',
        a: at(middle - wheel.width / 2, seat + wheel.flangeHeight),
        b: at(middle + wheel.width / 2, seat + wheel.flangeHeight),
        lane: 'above',
        valueMm: wheel.width,
        assumed: of('width'),
      }),
    );
    if (wheel.backspacing !== undefined)
      found.push(
        dimension({
          id: 'backspacing',
          name: 'Backspacing',
          a: at(middle - halfOverallWidthMm(wheel), -seat - wheel.flangeHeight),
          b: below(face),
          lane: 'below',
          valueMm: wheel.backspacing,
          assumed: of('backspacing'),
        }),
      );
    else if (wheel.offset !== undefined)
      found.push(
        dimension({
          id: 'offset',
          name: 'Offset',
          a: below(middle),
          b: below(face),
          lane: 'below',
          valueMm: wheel.offset,
          assumed: of('offset'),
        }),
      );
    if (tyre !== undefined) {
      const { overallDiameterMm, sectionWidthMm } = tyreDimensions(tyre);
      const widest = (seat + overallDiameterMm / 2) / 2;
      found.push(
        dimension({
          id: 'tyreWidth',
          name: 'Tyre width',
          a: at(middle - sectionWidthMm / 2, widest),
          b: at(middle + sectionWidthMm / 2, widest),
          lane: 'above',
          valueMm: sectionWidthMm,
          assumed: isAssumed(...tyreFields(facts, tyre, 'sectionWidth')),
        }),
      );
    }
  }
  if (hasHubFace(corner)) {
    const hubFaceAssumed = isAssumed('suspension.hubFace', 'suspension.hardpoints.wheelCentre');
    found.push(
      dimension({
        id: 'hubFace',
        name: 'Wheel centre to hub face',
        a: below(0),
        b: below(hubFaceY),
        lane: 'below',
        valueMm: Math.abs(hubFaceY),
        assumed: hubFaceAssumed,
      }),
    );
  }
  for (const { rotor, middleY } of rotorPlanes(corner)) {
    const of = (...fields: string[]) => isAssumed(...fields.map((field) => fieldOf(rotor, field)));
    found.push(
      dimension({
        id: `rotorPlane-${corner.parts.indexOf(rotor)}`,
        name: 'Hub face to rotor plane',
        a: below(hubFaceY),
        b: below(middleY),
        lane: 'below',
        valueMm: Math.abs(middleY - hubFaceY),
        assumed: of('hatThickness', 'height', 'thickness'),
      }),
      dimension({
        id: `rotorDiameter-${corner.parts.indexOf(rotor)}`,
        name: 'Rotor',
        sign: 'Ø ',
        a: at(middleY, rotor.diameter / 2),
        b: at(middleY, -rotor.diameter / 2),
        lane: inner,
        valueMm: rotor.diameter,
        assumed: of('diameter'),
      }),
    );
  }
  return found;
}
