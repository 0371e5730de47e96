import type { LengthUnit } from '../../report/figures.ts';
import { parseLength } from '../../units/parseLength.ts';
import { stepped } from '../bench/stepText.ts';
import type { Place } from '../viewer/dimensionDrawing.ts';

/** X, Y and Z of a file as they run on the screen: px a mm, y down. */
export type AxesPx = readonly [Place, Place, Place];

/** An axis that runs toward the eye more steeply than this, sine, cannot be dragged along. */
const LEAST_SEEN = 0.2;

const long = ({ x, y }: Place) => Math.hypot(x, y);
const det = (a: Place, b: Place) => a.x * b.y - a.y * b.x;

/** Px a mm of what lies square to the eye: the three axes together always show it (no perspective). */
export const pxPerMm = (axes: AxesPx): number =>
  Math.sqrt(axes.reduce((sum, axis) => sum + long(axis) ** 2, 0) / 2);

/** Whether an axis is seen enough of to be dragged along. */
export const isSeen = (axes: AxesPx, axis: number): boolean => long(axes[axis]) > LEAST_SEEN * pxPerMm(axes);

/** How far along one axis a drag across the screen goes, mm: where on the axis the pointer is nearest. */
export function alongAxis(drag: Place, axis: Place): number {
  return (drag.x * axis.x + drag.y * axis.y) / long(axis) ** 2;
}

/** The two axes whose plane is seen most square-on. */
export function planeSeen(axes: AxesPx): readonly [number, number] {
  const planes = [
    [0, 1],
    [1, 2],
    [0, 2],
  ] as const;
  const area = ([a, b]: readonly [number, number]) => Math.abs(det(axes[a], axes[b]));
  return planes.reduce((best, plane) => (area(plane) > area(best) ? plane : best));
}

/** How far along two axes a drag across the screen goes, mm. */
export function inPlane(drag: Place, a: Place, b: Place): readonly [number, number] {
  const all = det(a, b);
  return [det(drag, b) / all, det(a, drag) / all];
}

/**
 * The text of a length moved by a distance, in whole steps and written as it was; undefined where the text is no length.
 * `unit` is that of a length typed without one.
 */
export function movedText(text: string, byMm: number, unit: LengthUnit | undefined): string | undefined {
  const next = stepped('length', text, 1, unit);
  if (next === undefined) return undefined;
  const mm = (one: string) => parseLength(one, { unit }).mm;
  const steps = Math.round(byMm / (mm(next) - mm(text)));
  return steps === 0 ? text : stepped('length', text, steps, unit);
}
