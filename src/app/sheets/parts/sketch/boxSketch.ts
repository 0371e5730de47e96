import type { Entry } from '../../../../design/schema.ts';
import { applyDirection, applyPoint, compose, fromAxes, invert, type Rigid } from '../../../../math/rigid.ts';
import { cross, scale, type Vec3 } from '../../../../math/vec.ts';
import { vehicleFromBox } from '../../../../solids/boxFrame.ts';
import { degToRad } from '../../../../units/angle.ts';
import { inRows, type LooseView } from './inRows.ts';
import { across, type Point, rectangle, type Sketch, turn, upward } from './sketch.ts';

/** Gap between a box and a dimension beside it, as a fraction of its longest side. */
const ASIDE = 0.06;
/** Radius of a rotation arc, as a fraction of the largest distance of the box from the axis. */
const TURNED = 0.6;
/** Least radius of a rotation arc, as a fraction of the longest side, for a slender box viewed along its length. */
const LEAST_TURNED = 0.1;

type Turn = 'rollDeg' | 'pitchDeg' | 'yawDeg';

/**
 * A box along its own z and x axes, then its roll, pitch and yaw one after the other, each viewed along the vehicle axis of
 * that rotation.
 */
export function boxSketch(box: Entry<'box'>): Sketch {
  const gap = 2 * ASIDE * Math.max(...box.size);
  return inRows(
    "Along the box's own z and own x; then turned by roll from ahead, pitch from the left, yaw from above",
    [alongZ(box), alongX(box), rolled(box), pitched(box), yawed(box)],
    gap,
  );
}

function alongZ(box: Entry<'box'>): LooseView {
  const [sx, sy, sz] = box.size;
  const aside = ASIDE * Math.max(...box.size);
  return {
    vehicleFromView: vehicleFromBox(box),
    outlines: [rectangle(-sx / 2, sx / 2, -sy / 2, sy / 2)],
    axes: [],
    dimensions: [
      { ...across('size.0', -sx / 2, sx / 2, sy / 2 + aside), out: sz / 2 },
      { ...upward('size.1', -sy / 2, sy / 2, -sx / 2 - aside), out: sz / 2 },
    ],
  };
}

function alongX(box: Entry<'box'>): LooseView {
  const [sx, sy, sz] = box.size;
  const aside = ASIDE * Math.max(...box.size);
  return {
    vehicleFromView: compose(vehicleFromBox(box), fromAxes([0, 1, 0], [0, 0, 1], [1, 0, 0], [0, 0, 0])),
    outlines: [rectangle(-sy / 2, sy / 2, -sz / 2, sz / 2)],
    axes: [],
    dimensions: [{ ...upward('size.2', -sz / 2, sz / 2, sy / 2 + aside), out: sx / 2 }],
  };
}

/** From ahead. The arc starts straight up, the direction of the box's z axis. */
const rolled = (box: Entry<'box'>): LooseView =>
  turned({ ...box, pitchDeg: 0, yawDeg: 0 }, 'rollDeg', [0, 1, 0], [0, 0, 1], 0);

/** From the left, the front to the left. The arc starts at the front, the direction of the box's x axis. */
const pitched = (box: Entry<'box'>): LooseView =>
  turned({ ...box, yawDeg: 0 }, 'pitchDeg', [-1, 0, 0], [0, 0, 1], -Math.PI / 2);

/** From above, the front to the left. The arc starts at the front. */
const yawed = (box: Entry<'box'>): LooseView => turned(box, 'yawDeg', [-1, 0, 0], [0, -1, 0], -Math.PI / 2);

/**
 * A box after one of its rotations, viewed along that axis; `right` and `up`: vehicle directions of the view; `startRad`: start
 * of the arc from straight up, toward the right.
 */
function turned(box: Entry<'box'>, field: Turn, right: Vec3, up: Vec3, startRad: number): LooseView {
  const vehicleFromView = fromAxes(right, up, cross(right, up), box.centre);
  const outlines = visibleFaces(box.size, compose(invert(vehicleFromView), vehicleFromBox(box)));
  const reach = Math.max(...outlines.flat().map((corner) => Math.hypot(...corner)));
  const radius = Math.max(TURNED * reach, LEAST_TURNED * Math.max(...box.size));
  // The axis points toward the eye: by the right-hand rule the rotation is anticlockwise.
  const way = turn(field, [0, 0], radius, [startRad, startRad - degToRad(box[field])]);
  return { vehicleFromView, outlines, axes: [[[0, 0], way.from]], dimensions: [way] };
}

/** The faces of a box toward the eye. */
function visibleFaces(size: Vec3, viewFromBox: Rigid): Point[][] {
  const half = scale(size, 1 / 2);
  return ([0, 1, 2] as const).flatMap((axis) => {
    const facing = applyDirection(viewFromBox, onAxis(axis, 1, [0, 0]))[2];
    // An edge-on face is a line, already drawn by its neighbour.
    if (Math.abs(facing) < 1e-9) return [];
    const corners = rectangle(-1, 1, -1, 1).map((beside) => onAxis(axis, Math.sign(facing), beside));
    return [
      corners.map(([i, j, k]): Point => {
        const [x, y] = applyPoint(viewFromBox, [i * half[0], j * half[1], k * half[2]]);
        return [x, y];
      }),
    ];
  });
}

/** A point from its coordinate along one axis and along the next two axes in cyclic order. */
const onAxis = (axis: 0 | 1 | 2, along: number, [u, v]: Point): Vec3 =>
  axis === 0 ? [along, u, v] : axis === 1 ? [v, along, u] : [u, v, along];
