import type { Dimension } from './dimension.ts';
import type { Point } from './ontoScreen.ts';
import type { PartName } from './partNames.ts';
import type { Box } from './path.ts';

/** A line that is no outline. */
export interface GuideLine {
  kind: 'centre' | 'ground';
  a: Point;
  b: Point;
  /** Its name along it, for a line outside the parts. Others are named like parts. */
  words?: string;
}

/** A view or a section before it is placed on paper. Places are mm of the vehicle, to the right and down on the view. */
export interface Drawing {
  /** Of its file: `front`. */
  key: 'front' | 'side' | 'top' | 'section';
  title: string;
  /** Where it is seen from, and the projection, in sentences. */
  seen: string;
  /** Extent of the parts. */
  box: Box;
  /** SVG of the parts in mm of the vehicle, for lines of the right width at a scale of 1 to `ratio`. */
  parts(ratio: number): string;
  guides: readonly GuideLine[];
  dimensions: readonly Dimension[];
  /** Names of parts and lines. */
  names: readonly PartName[];
  /** Directions on the view: to the right (1) or to the left (-1), and up (1) or down (-1). */
  right: { words: string; sense: 1 | -1 };
  up: { words: string; sense: 1 | -1 };
  /** Sentences below the drawing. */
  notes: readonly string[];
}
