import type { Carrier } from '../design/schema.ts';
import type { Vec3 } from '../math/vec.ts';
import type { SolidKind } from '../parts/kinds.ts';

/** A triangle mesh in ride-height vehicle coordinates, mm. Corners of a triangle run anticlockwise, viewed from outside. */
export interface Mesh {
  /** x y z of each vertex. */
  positions: Float64Array;
  /** Three vertex indices for each triangle. */
  triangles: Uint32Array;
}

/** A region in which contact is intended. Ride-height vehicle coordinates; it moves with both parts of a pair. */
export type Zone = {
  /** Description of the contact: "bolt in its hole". */
  what?: string;
} & (
  | { shape: 'sphere'; centre: Vec3; radiusMm: number }
  /** A round disc: points within `halfThicknessMm` of the plane through `centre` and within `radiusMm` of the axis. */
  | { shape: 'slab'; centre: Vec3; axis: Vec3; halfThicknessMm: number; radiusMm: number }
);

/** Centre of a joint or mount that the part belongs to. */
export interface Attachment {
  /** A joint place of the schema, `damperChassis` or `damperArm`. */
  name: string;
  /** Ride-height vehicle coordinates. */
  at: Vec3;
}

/** Zones of intended contact with one other solid. */
export interface Seat {
  solidId: string;
  zones: readonly Zone[];
  /** Reason why the two unswept solids are not checked against each other; undefined if they are. */
  notChecked?: string;
}

export type { SolidKind };

/** One rigid body of the corner. Most entries of a file give one; a hub, a joint and a damper give two. */
export interface Solid {
  /** The entry's id, with `.housing`, `.bolt`, `.body` or `.rod` if the entry gives two solids. */
  id: string;
  label: string;
  kind: SolidKind;
  /** Index of its entry in `corner.parts`. */
  partIndex: number;
  carrier: Carrier;
  /** The checked body, closed and outward. For a solid that turns with the wheel: the body that it sweeps in a full turn. */
  mesh: Mesh;
  /** The displayed and exported shape, closed and outward; undefined if that is `mesh`. */
  shown: Mesh | undefined;
  /** If `mesh` is a sweep: the unswept body. It is checked against solids that turn with it. */
  unswept?: Mesh;
  /**
   * For a joint's bolt: the body without the ball, which fills its seat. It is measured against the solids that hold the
   * joint: its housing and the arm.
   */
  withoutBall?: Mesh;
  /** Greatest distance between the true surface and `mesh` or `unswept`, in both directions, mm. */
  chordErrorMm: number;
  /** The same for `shown`, if that has round pieces of its own. */
  shownErrorMm?: number;
  /** Volume of `mesh`. */
  volumeMm3: number;
  allowanceMm: number;
  attachments: readonly Attachment[];
  /** Zones of intended contact with other solids. Only one solid of a pair lists them. */
  seats?: readonly Seat[];
}

/** Greatest distance between the displayed shape of a solid and the true part, mm. */
export const drawnErrorMm = ({
  chordErrorMm,
  shownErrorMm = 0,
}: Pick<Solid, 'chordErrorMm' | 'shownErrorMm'>): number => Math.max(chordErrorMm, shownErrorMm);
