import type { Carrier } from '../design/schema.ts';
import type { Vec3 } from '../math/vec.ts';

/** A triangle mesh in ride-height vehicle coordinates, mm. Corners of a triangle run anticlockwise seen from outside. */
export interface Mesh {
  /** x y z of each vertex. */
  positions: Float64Array;
  /** Three vertex numbers a triangle. */
  triangles: Uint32Array;
}

/** A region inside which contact is intended. Ride-height vehicle coordinates; rides with both parts of a pair. */
export type Zone = {
  /** What meets there, in words: "bolt in its hole". */
  what?: string;
} & (
  | { shape: 'sphere'; centre: Vec3; radiusMm: number }
  /** A round disc: within `halfThicknessMm` of the plane through `centre` and within `radiusMm` of the axis. */
  | { shape: 'slab'; centre: Vec3; axis: Vec3; halfThicknessMm: number; radiusMm: number }
);

/**
 * Where a part is joined or bolted. Two parts with an attachment of the same name meet there by intent, inside the
 * larger of their two zones. Names are the joint places of the schema, and `damperChassis`, `damperArm`, `hubFace`,
 * `hubMount`, `caliperMount`, `bead`.
 */
export interface Attachment {
  name: string;
  zone: Zone;
}

/** Regions in which contact with one other solid is intended. */
export interface Seat {
  solidId: string;
  zones: readonly Zone[];
  /** Why the two as they stand are not checked against each other at all; undefined where they are. */
  notChecked?: string;
}

export type SolidKind =
  | 'wheel'
  | 'tyre'
  | 'hub'
  | 'bearingHousing'
  | 'spacer'
  | 'rotor'
  | 'caliper'
  | 'upright'
  | 'controlArm'
  | 'joint'
  | 'tieRod'
  | 'damperBody'
  | 'damperRod'
  | 'bolts'
  | 'tube'
  | 'box'
  | 'plate';

/** One rigid body of the corner. Most entries of a file make one; a hub and a damper make two. */
export interface Solid {
  /** The entry's id, with `.housing`, `.body` or `.rod` where an entry makes more than one. */
  id: string;
  label: string;
  kind: SolidKind;
  /** Index of its entry in `corner.parts`. */
  partIndex: number;
  carrier: Carrier;
  /** The body that is checked: closed, outward; for whatever spins, what it sweeps in a full turn. */
  mesh: Mesh;
  /** The part as it looks and is exported, where that is not `mesh`; closed and outward too. */
  shown: Mesh | undefined;
  /** Of what `mesh` is the sweep of: the body itself as it stands, checked beside what turns with it. */
  standing?: Mesh;
  /** No point of the true surface is further than this from `mesh` or `standing`, and the other way round, mm. */
  chordErrorMm: number;
  /** The same of `shown`, where that has round pieces of its own. */
  shownErrorMm?: number;
  /** Of `mesh`. */
  volumeMm3: number;
  allowanceMm: number;
  attachments: readonly Attachment[];
  /** Where bolts bear on what they hold, by the id of that solid. */
  seats?: readonly Seat[];
}

/** How far what is seen of a solid may be from the true part, mm. */
export const drawnErrorMm = ({
  chordErrorMm,
  shownErrorMm = 0,
}: Pick<Solid, 'chordErrorMm' | 'shownErrorMm'>): number => Math.max(chordErrorMm, shownErrorMm);
