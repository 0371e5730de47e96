import type { Point } from './ontoScreen.ts';

/** Extent of a drawing, mm. */
export interface Box {
  left: number;
  top: number;
  width: number;
  height: number;
}

/** A point as text of an SVG path. */
export const pathPoint = ([x, y]: Point): string => `${plain(x)} ${plain(y)}`;

/** A coordinate of a path, to 0.01. */
export const plain = (value: number): string => `${Math.round(value * 100) / 100}`;

/** The smallest box around points. */
export function boxAround(points: readonly Point[]): Box {
  let [left, top, right, bottom] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const [x, y] of points) {
    left = Math.min(left, x);
    right = Math.max(right, x);
    top = Math.min(top, y);
    bottom = Math.max(bottom, y);
  }
  return { left, top, width: right - left, height: bottom - top };
}

/** The smallest box around boxes. */
export const boxOf = (boxes: readonly Box[]): Box =>
  boxAround(
    boxes.flatMap(({ left, top, width, height }): Point[] => [
      [left, top],
      [left + width, top + height],
    ]),
  );

/** SVG path of closed outlines. */
export const loopsPathOf = (loops: readonly (readonly Point[])[]): string =>
  loops.map((loop) => `M${loop.map(pathPoint).join('L')}Z`).join('');
