import type { Corner, Entry } from '../design/schema.ts';
import { applyDirection, applyPoint } from '../math/rigid.ts';
import { cos, sin } from '../math/sine.ts';
import { degToRad } from '../units/angle.ts';
import type { Zone } from './solid.ts';
import { axialStack, entries, vehicleFromWheelAxis } from './wheelFrame.ts';

/** Beyond the metal that is meant to touch: weld beads and washers. Common practice, no source. */
const MARGIN_MM = 3;

/** Where a caliper's mounting bolts and ears are, in the wheel-axis frame. */
export interface CaliperMountStack {
  /** Wheel axis to the point midway between the two bolts. */
  middleRadius: number;
  /** Depths (see `AxialStack`) of the ears' two faces, the outboard one larger. */
  earOutboard: number;
  earInboard: number;
  /** Depth of the inboard end of the bolts' shanks, which start flush with the ears' outboard face. */
  boltInboard: number;
  /** Depths of the bracket's two faces; undefined without one. */
  bracket: { outboard: number; inboard: number } | undefined;
}

/** Places the ears, bolts and bracket of a caliper along the wheel axis. Throws an Error without a rotor to measure from. */
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

/**
 * Where a caliper and the upright meet by intent: a slab square to the wheel axis, centred midway between the two
 * mounting bolts. Without a bracket it holds the ears and the length of their bolts, which go into the upright; with
 * one it holds the bracket alone, out to the end that meets the upright, so that ears and bolts are still checked.
 */
export function caliperMountZone(corner: Corner, caliper: Entry<'caliper'>): Zone {
  const stack = caliperMountStack(corner, caliper);
  const { mount, bracket } = caliper;
  const outboard = stack.bracket?.outboard ?? stack.earOutboard;
  const inboard = stack.bracket?.inboard ?? Math.min(stack.earInboard, stack.boltInboard);
  const acrossEars = mount.boltSpacing / 2 + mount.earDiameter / 2;
  const reach = bracket
    ? Math.max(acrossEars, Math.hypot(stack.middleRadius - bracket.innerRadius, bracket.width / 2))
    : acrossEars;
  const clocking = degToRad(caliper.clockingDeg);
  const vehicleFromWheel = vehicleFromWheelAxis(corner.suspension);
  return {
    shape: 'slab',
    centre: applyPoint(vehicleFromWheel, [
      -sin(clocking) * stack.middleRadius,
      axialStack(corner).hubFaceY + (outboard + inboard) / 2,
      cos(clocking) * stack.middleRadius,
    ]),
    axis: applyDirection(vehicleFromWheel, [0, 1, 0]),
    halfThicknessMm: (outboard - inboard) / 2 + MARGIN_MM,
    radiusMm: reach + MARGIN_MM,
  };
}

/** How far out the ends of a caliper's body come down: to where the radius through their outer corner meets the inner arc, mm. */
export const bodyFootMm = ({ body: { innerRadius, outerRadius, length } }: Entry<'caliper'>): number =>
  innerRadius * Math.sqrt(Math.max(0, 1 - (length / 2 / outerRadius) ** 2));

/**
 * Depths of the faces of a caliper's inboard half, the outboard one larger, where bolts of a diameter through its ears run
 * through it as it was measured; undefined where they stand beside it. The body is drawn as one block as long and deep as it
 * is anywhere, and one that was bolted by its ears before leaves its bolts room that the block does not show.
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
