import type { Loop } from '../../solids/flatPlates/flatPlate.ts';
import type { Point2 } from '../../solids/simplePolygon.ts';

/** What the lines of a drawing mean; the names of the layers in a DXF file. */
export const LAYERS = ['CUT', 'MARK', 'BEND', 'TEXT', 'CHECK'] as const;
export type Layer = (typeof LAYERS)[number];

/** A line, loop or text of a drawing, mm. Texts start at `at` on their base line, or have their middle or end there. */
export type Entity =
  | { kind: 'line'; layer: Layer; from: Point2; to: Point2 }
  | { kind: 'loop'; layer: Layer; loop: Loop }
  | { kind: 'text'; layer: Layer; at: Point2; heightMm: number; text: string; anchor?: 'middle' | 'end' };
