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

/** The centre of a joint or mount that a part has its share in. */
export interface Attachment {
  /** A joint place of the schema, `damperChassis` or `damperArm`. */
  name: string;
  /** Ride-height vehicle coordinates. */
  at: Vec3;
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
  | 'jointBolt'
  | 'tieRod'
  | 'damperBody'
  | 'damperRod'
  | 'bolts'
  | 'tube'
  | 'box'
  | 'plate';

/** One rigid body of the corner. Most entries of a file make one; a hub and a damper make two. */
export interface Solid {
  /** The entry's id, with `.housing`, `.bolt`, `.body` or `.rod` where an entry makes more than one. */
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
  /**
   * Of a joint's bolt: the same without the ball, which fills its seat. Measured against what holds the joint: its housing
   * and the arm.
   */
  withoutBall?: Mesh;
  /** No point of the true surface is further than this from `mesh` or `standing`, and the other way round, mm. */
  chordErrorMm: number;
  /** The same of `shown`, where that has round pieces of its own. */
  shownErrorMm?: number;
  /** Of `mesh`. */
  volumeMm3: number;
  allowanceMm: number;
  attachments: readonly Attachment[];
  /** Where contact with other solids is intended, by their ids. Given by one solid of a pair alone. */
  seats?: readonly Seat[];
}

/** How far what is seen of a solid may be from the true part, mm. */
export const drawnErrorMm = ({
  chordErrorMm,
  shownErrorMm = 0,
}: Pick<Solid, 'chordErrorMm' | 'shownErrorMm'>): number => Math.max(chordErrorMm, shownErrorMm);
