import type { Vec3 } from '../../math/vec.ts';
import type { Feature } from '../../solids/features/feature.ts';
import { drawnErrorMm, type Solid } from '../../solids/solid.ts';

/** A place of a part without a shape: of its surface, or a joint's centre. */
export interface PlaceFeature {
  kind: 'place';
  at: Vec3;
  /** The joint that it is the centre of; undefined for a place of the surface. */
  joint: string | undefined;
  errorMm: number;
}

/** What the tape is held to: something of one of the solids, in the frame of its carrier. */
export interface Pick {
  /** Index into the corner's solids. */
  solid: number;
  what: Feature | PlaceFeature;
}

const JOINTS: Readonly<Record<string, string>> = {
  lowerJoint: 'lower joint',
  upperJoint: 'upper joint',
  tieRodInner: 'inner tie-rod joint',
  tieRodOuter: 'outer tie-rod joint',
  lowerArmFront: 'front pivot of the lower arm',
  lowerArmRear: 'rear pivot of the lower arm',
  upperArmFront: 'front pivot of the upper arm',
  upperArmRear: 'rear pivot of the upper arm',
  damperChassis: 'damper mount at the chassis',
  damperArm: 'damper mount at the arm',
};

/** The centres of the joints that a solid is part of: where the file says, so without an error of their own. */
export const jointsOf = ({ attachments }: Solid): PlaceFeature[] =>
  attachments.map(({ name, at }) => ({ kind: 'place' as const, at, joint: JOINTS[name], errorMm: 0 }));

/** A place of what is seen of a solid. */
export const surfacePlace = (solid: Solid, at: Vec3): PlaceFeature => ({
  kind: 'place',
  at,
  joint: undefined,
  errorMm: drawnErrorMm(solid),
});
