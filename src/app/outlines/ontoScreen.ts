import { type Side, shownPoint } from '../../design/side.ts';
import { applyDirection, invert, type Rigid } from '../../math/rigid.ts';
import { dot, type Vec3 } from '../../math/vec.ts';
import { screenAxes } from '../viewer/frame.ts';

/** A place on the screen as a linear function of a point: factors of x, y and z, and what is added. */
type Linear = readonly [number, number, number, number];

/** How a frame is seen without perspective: mm to the right and mm down, from where the vehicle's origin is seen. */
export interface OntoScreen {
  right: Linear;
  down: Linear;
  /** Toward the eye, in the frame. */
  eye: Vec3;
}

/** How a frame of the left corner is seen from the direction `eye`, which is as shown. */
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

/** Finer than a px at the closest view. */
const DECIMALS = 2;

/** The point at place `i` of a list of x y z, as text of an SVG path. */
function place({ right, down }: OntoScreen, p: ArrayLike<number>, i: number): string {
  const [x, y, z] = [p[i], p[i + 1], p[i + 2]];
  const at = (l: Linear) => (l[0] * x + l[1] * y + l[2] * z + l[3]).toFixed(DECIMALS);
  return `${at(right)} ${at(down)}`;
}

/** SVG path of lines between points, x y z each; `ends` holds the numbers of two points a line, and is all in turn where left out. */
export function linesPath(seen: OntoScreen, points: ArrayLike<number>, ends?: ArrayLike<number>): string {
  const count = ends?.length ?? points.length / 3;
  const index = (k: number) => 3 * (ends === undefined ? k : ends[k]);
  let path = '';
  for (let k = 0; k < count; k += 2)
    path += `M${place(seen, points, index(k))}L${place(seen, points, index(k + 1))}`;
  return path;
}

/** SVG path of closed outlines, given as lines from corner to corner one after the other, x y z of both ends each. */
export function loopsPath(seen: OntoScreen, lines: ArrayLike<number>): string {
  let path = '';
  for (let i = 0; i < lines.length; i += 6) {
    const goesOn = i > 0 && [0, 1, 2].every((k) => lines[i + k] === lines[i - 3 + k]);
    path += `${goesOn ? 'L' : 'M'}${place(seen, lines, i)}`;
    // A line of an outline that ends where the next does not begin is its last.
    const last = i + 6 >= lines.length || [0, 1, 2].some((k) => lines[i + 3 + k] !== lines[i + 6 + k]);
    if (last) path += 'Z';
  }
  return path;
}
