import { type Side, shownPoint } from '../../design/side.ts';
import { applyDirection, invert, type Rigid } from '../../math/rigid.ts';
import { screenAxes } from '../../math/screenAxes.ts';
import { dot, type Vec3 } from '../../math/vec.ts';

/** A screen coordinate as a linear function of a point: factors of x, y and z, then the constant. */
type Linear = readonly [number, number, number, number];

/** Orthographic projection of a frame: mm to the right and mm down from the vehicle's origin on the screen. */
export interface OntoScreen {
  right: Linear;
  down: Linear;
  /** Toward the eye, in the frame. */
  eye: Vec3;
}

/** Projects a frame of the left corner; `eye` is the direction toward the eye in the shown vehicle. */
export function ontoScreen(vehicleFromFrame: Rigid, eye: Vec3, side: Side): OntoScreen {
  const frameFromVehicle = invert(vehicleFromFrame);
  const origin: Vec3 = [vehicleFromFrame[3], vehicleFromFrame[7], vehicleFromFrame[11]];
  const axes = screenAxes(eye);
  const along = (axis: Vec3, sign: number): Linear => {
    const inVehicle = shownPoint(side, axis);
    const [x, y, z] = applyDirection(frameFromVehicle, inVehicle);
    return [sign * x, sign * y, sign * z, sign * dot(inVehicle, origin)];
  };
  return {
    right: along(axes.right, 1),
    down: along(axes.up, -1),
    eye: applyDirection(frameFromVehicle, shownPoint(side, eye)),
  };
}

/** Less than a pixel at the closest zoom. */
const DECIMALS = 2;

/** A point of a drawing: mm to the right and mm down. */
export type Point = readonly [number, number];

/** The point that starts at index `i` of a list of x y z. */
export function onScreen({ right, down }: OntoScreen, p: ArrayLike<number>, i: number): Point {
  const [x, y, z] = [p[i], p[i + 1], p[i + 2]];
  const at = (l: Linear) => l[0] * x + l[1] * y + l[2] * z + l[3];
  return [at(right), at(down)];
}

/** As `onScreen`, as text of an SVG path. */
function place(projection: OntoScreen, p: ArrayLike<number>, i: number): string {
  const [x, y] = onScreen(projection, p, i);
  return `${x.toFixed(DECIMALS)} ${y.toFixed(DECIMALS)}`;
}

/** SVG path of lines between points, x y z each. `ends`: indices of two points per line; by default all points in order. */
export function linesPath(
  projection: OntoScreen,
  points: ArrayLike<number>,
  ends?: ArrayLike<number>,
): string {
  const count = ends?.length ?? points.length / 3;
  const index = (k: number) => 3 * (ends === undefined ? k : ends[k]);
  let path = '';
  for (let k = 0; k < count; k += 2)
    path += `M${place(projection, points, index(k))}L${place(projection, points, index(k + 1))}`;
  return path;
}

/** SVG path of closed outlines, given as consecutive line segments, x y z of both ends each. */
export function loopsPath(projection: OntoScreen, lines: ArrayLike<number>): string {
  let path = '';
  for (let i = 0; i < lines.length; i += 6) {
    const continues = i > 0 && [0, 1, 2].every((k) => lines[i + k] === lines[i - 3 + k]);
    path += `${continues ? 'L' : 'M'}${place(projection, lines, i)}`;
    // If the next segment starts elsewhere, this one is the last of its outline.
    const last = i + 6 >= lines.length || [0, 1, 2].some((k) => lines[i + 3 + k] !== lines[i + 6 + k]);
    if (last) path += 'Z';
  }
  return path;
}
