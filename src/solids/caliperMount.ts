import type { Corner, Entry } from '../design/schema.ts';
import { addScaled, normalize, sub } from '../math/vec.ts';
import { clockedPlace } from './fasteners/boltHoles.ts';
import {
  BEYOND_EDGE_MM,
  BEYOND_FACE_MM,
  clampedFaces,
  depthAxis,
  disc,
  shankIn,
} from './fasteners/seatZones.ts';
import type { Seat, Zone } from './solid.ts';
import { legDepthMm } from './uprightPlan.ts';
import { axialStack, entries } from './wheelFrame.ts';

/** Where a caliper's mounting bolts and ears are, in the wheel-axis frame. */
export interface CaliperMountStack {
  /** Distance from the wheel axis to the point midway between the two bolts, mm. */
  middleRadius: number;
  /** Depths (see `AxialStack`) of the ears' two faces, the outboard one larger. */
  earOutboard: number;
  earInboard: number;
  /** Depth of the inboard end of the bolts' shanks; they start flush with the ears' outboard face. */
  boltInboard: number;
  /** Depths of the bracket's two faces; undefined without one. */
  bracket: { outboard: number; inboard: number } | undefined;
}

/** Places of a caliper's ears, bolts and bracket along the wheel axis. Throws an Error if there is no rotor. */
export function caliperMountStack(corner: Corner, caliper: Entry<'caliper'>): CaliperMountStack {
  const rotor = entries(corner, 'rotor')[0];
  if (rotor === undefined) {
    throw new Error('a caliper is placed from the rotor: add a part of kind "rotor"');
  }
  const { boltRadius, boltSpacing, boltLength, earFace, earThickness } = caliper.mount;
  if (boltSpacing >= 2 * boltRadius) {
    throw new Error(
      `mount.boltSpacing ${boltSpacing} mm does not fit on a circle of mount.boltRadius ${boltRadius} mm: ` +
        'it must be less than twice that',
    );
  }
  const earInboard = axialStack(corner).rotorFaces(rotor).inboard - earFace;
  const earOutboard = earInboard + earThickness;
  const outboard = earInboard - (caliper.bracket?.inset ?? 0);
  return {
    middleRadius: Math.sqrt(boltRadius ** 2 - (boltSpacing / 2) ** 2),
    earOutboard,
    earInboard,
    boltInboard: earOutboard - boltLength,
    bracket: caliper.bracket && { outboard, inboard: outboard - caliper.bracket.thickness },
  };
}

/** Gap between edges that are welded together, mm. Common practice, no source. */
const WELD_MM = 3;

/** Faces that are nearer along the wheel axis count as one clamped plane, mm; far below any measurement. */
const SAME_PLANE_MM = 0.01;

/**
 * Zones where a caliper may touch the upright. Without a bracket: the inboard face of each ear, and each of the caliper's own
 * bolts in the upright's plates. With a bracket: its faces that lie in a face of those plates, or its foot if it is edge-on
 * to them. `ownBolts`: the bolts belong to the caliper's solid; the file has no part for them.
 */
export function caliperSeats(
  corner: Corner,
  caliper: Entry<'caliper'>,
  ownBolts: boolean,
  chordMm: number,
): Seat[] {
  const [upright] = entries(corner, 'upright');
  if (upright === undefined) return [];
  const stack = caliperMountStack(corner, caliper);
  const { mount, bracket } = caliper;
  const face = axialStack(corner).uprightFaceDepth;
  const plates = { outboard: face, inboard: face - legDepthMm(upright) };
  if (bracket !== undefined && stack.bracket !== undefined) {
    const { outboard, inboard } = stack.bracket;
    const acrossEars = mount.boltSpacing / 2 + mount.earDiameter / 2;
    const toFoot = Math.hypot(stack.middleRadius - bracket.innerRadius, bracket.width / 2);
    const axis = depthAxis(corner, clockedPlace(caliper.clockingDeg, [0, stack.middleRadius]));
    const planes = [
      ...(liesIn(inboard, [plates.outboard]) ? [inboard] : []),
      ...(liesIn(outboard, [face - upright.plateThickness, plates.inboard]) ? [outboard] : []),
    ];
    const faces = planes.map((plane) =>
      clampedFaces(axis, plane, Math.max(acrossEars, toFoot), chordMm, 'bracket clamped against the upright'),
    );
    const isEdgeOn = Math.min(outboard, plates.outboard) - Math.max(inboard, plates.inboard) > SAME_PLANE_MM;
    const foot = isEdgeOn
      ? [weldedFoot(corner, caliper.clockingDeg, bracket, outboard, inboard, chordMm)]
      : [];
    return [{ solidId: upright.id, zones: [...faces, ...foot] }];
  }
  const zones = [-1, 1].flatMap((side) => {
    const place = clockedPlace(caliper.clockingDeg, [(side * mount.boltSpacing) / 2, stack.middleRadius]);
    const axis = depthAxis(corner, place);
    const ear = clampedFaces(
      axis,
      stack.earInboard,
      mount.earDiameter / 2,
      chordMm,
      'ear clamped against the upright',
    );
    const from = Math.min(stack.earInboard, plates.outboard);
    const to = Math.max(stack.boltInboard, plates.inboard);
    const bolt = () => shankIn(axis, [to, from], mount.boltDiameter, chordMm, 'mounting bolt in the upright');
    return ownBolts && from > to ? [ear, bolt()] : [ear];
  });
  return [{ solidId: upright.id, zones }];
}

/**
 * Zone of the weld gap at the foot of a bracket that is edge-on to the upright's plate: a thin disc square to the radius
 * through the middle of the foot, as wide as the foot, that ends at the foot. A foot in the plate counts as contact.
 */
function weldedFoot(
  corner: Corner,
  clockingDeg: number,
  { innerRadius, width, thickness }: NonNullable<Entry<'caliper'>['bracket']>,
  outboard: number,
  inboard: number,
  chordMm: number,
): Zone {
  const [x, z] = clockedPlace(clockingDeg, [0, innerRadius]);
  const { origin } = depthAxis(corner, [x, z]);
  const { origin: onAxis, axis: outboardward } = depthAxis(corner);
  return disc(
    {
      origin: addScaled(origin, outboardward, (outboard + inboard) / 2),
      axis: normalize(sub(origin, onAxis)),
    },
    [-WELD_MM, -BEYOND_FACE_MM],
    Math.hypot(width, thickness) / 2 + BEYOND_EDGE_MM,
    chordMm,
    "weld at the bracket's foot",
  );
}

const liesIn = (depth: number, planes: readonly number[]): boolean =>
  planes.some((plane) => Math.abs(depth - plane) <= SAME_PLANE_MM);

/** Distance from the wheel axis, mm, to which a caliper body's ends reach: where the radius through their outer corner meets the
 * inner arc. */
export const bodyFootMm = ({ body: { innerRadius, outerRadius, length } }: Entry<'caliper'>): number =>
  innerRadius * Math.sqrt(Math.max(0, 1 - (length / 2 / outerRadius) ** 2));

/**
 * Depths of the faces of a caliper's inboard half, the outboard one larger, if the bolts through its ears run through the
 * body as entered; undefined if they pass beside it. The body is drawn as one block with its greatest length and depth. A
 * real body leaves room for its bolts, which the block does not show.
 */
export function bodyOverBolts(
  corner: Corner,
  caliper: Entry<'caliper'>,
  boltDiameterMm: number,
): { outboard: number; inboard: number } | undefined {
  const [rotor] = entries(corner, 'rotor');
  const { boltSpacing, boltRadius } = caliper.mount;
  const { length, innerRadius, outerRadius, inboardDepth, faceGap } = caliper.body;
  const { middleRadius } = caliperMountStack(corner, caliper);
  const beyondEnd = boltSpacing / 2 - length / 2;
  const below = Math.max(innerRadius - boltRadius, bodyFootMm(caliper) - middleRadius);
  const outside = Math.max(beyondEnd, boltRadius - outerRadius, below);
  if (outside >= boltDiameterMm / 2) return undefined;
  const face = axialStack(corner).rotorFaces(rotor).inboard;
  return { outboard: face - faceGap, inboard: face - inboardDepth };
}
