import type { Suspension } from '../../../design/schema.ts';
import { layoutOf } from '../../../layouts/layoutOf.ts';
import type { Vec3 } from '../../../math/vec.ts';
import type { Feature } from '../../../solids/features/feature.ts';
import { drawnErrorMm, type Solid } from '../../../solids/solid.ts';

/** A point of a part: a place of its surface, or a joint's centre. */
export interface PlaceFeature {
  kind: 'place';
  at: Vec3;
  /** The joint whose centre it is; undefined for a place of the surface. */
  joint: string | undefined;
  errorMm: number;
}

/** One end of the tape: a feature or point of a solid, in the frame of its carrier. */
export interface Pick {
  /** Index into the corner's solids. */
  solid: number;
  what: Feature | PlaceFeature;
}

const MOUNTS: Readonly<Record<string, string>> = {
  damperChassis: 'damper mount at the chassis',
  damperArm: 'damper mount at the arm',
};

/** Centres of the joints that a solid belongs to. They are points of the file and have no error of their own. */
export const jointsOf = (suspension: Suspension, { attachments }: Solid): PlaceFeature[] =>
  attachments.map(({ name, at }) => ({
    kind: 'place' as const,
    at,
    joint: layoutOf(suspension).joints[name]?.name ?? MOUNTS[name],
    errorMm: 0,
  }));

/** A place of a solid's drawn surface. */
export const surfacePlace = (solid: Solid, at: Vec3): PlaceFeature => ({
  kind: 'place',
  at,
  joint: undefined,
  errorMm: drawnErrorMm(solid),
});
