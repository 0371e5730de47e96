import type { LengthUnit } from '../../../report/figures.ts';
import { parseLength } from '../../../units/parseLength.ts';
import { stepText } from '../../kit/stepText.ts';
import type { Place } from '../../view3d/dimensionDrawing.ts';

/** X, Y and Z of a file on the screen: px per mm, y down. */
export type AxesPx = readonly [Place, Place, Place];

/** Least sine of the angle between an axis and the line of sight at which the axis can be dragged along. */
const LEAST_SINE = 0.2;

const long = ({ x, y }: Place) => Math.hypot(x, y);
const det = (a: Place, b: Place) => a.x * b.y - a.y * b.x;

/** Screen scale, px per mm, from the three projected axes (orthographic). */
export const pxPerMm = (axes: AxesPx): number =>
  Math.sqrt(axes.reduce((sum, axis) => sum + long(axis) ** 2, 0) / 2);

/** Whether an axis is long enough on the screen to be dragged along. */
export const isDraggable = (axes: AxesPx, axis: number): boolean =>
  long(axes[axis]) > LEAST_SINE * pxPerMm(axes);

/** Displacement along one axis for a drag on the screen, mm: the point of the axis nearest to the pointer. */
export function alongAxis(drag: Place, axis: Place): number {
  return (drag.x * axis.x + drag.y * axis.y) / long(axis) ** 2;
}

/** The two axes whose plane is most square to the view. */
export function facingPlane(axes: AxesPx): readonly [number, number] {
  const planes = [
    [0, 1],
    [1, 2],
    [0, 2],
  ] as const;
  const area = ([a, b]: readonly [number, number]) => Math.abs(det(axes[a], axes[b]));
  return planes.reduce((best, plane) => (area(plane) > area(best) ? plane : best));
}

/** Displacement along two axes for a drag on the screen, mm. */
export function inPlane(drag: Place, a: Place, b: Place): readonly [number, number] {
  const all = det(a, b);
  return [det(drag, b) / all, det(a, drag) / all];
}

/**
 * A length's text moved by a distance, in whole steps and in the format of the text; undefined if the text is not a length.
 * `unit`: the unit of a length typed without one.
 */
export function movedText(text: string, byMm: number, unit: LengthUnit | undefined): string | undefined {
  const next = stepText('length', text, 1, unit);
  if (next === undefined) return undefined;
  const mm = (one: string) => parseLength(one, { unit }).mm;
  const steps = Math.round(byMm / (mm(next) - mm(text)));
  return steps === 0 ? text : stepText('length', text, steps, unit);
}
