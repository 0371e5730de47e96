import type { Design } from '../../design/design.ts';
import type { Solid } from '../../solids/solid.ts';
import type { LengthUnit } from '../figures.ts';
import type { Paper } from '../pdf/paper.ts';
import { cornerFacts } from './facts.ts';
import { sectionDrawing } from './sectionDrawing.ts';
import { type Sheet, sheetOf } from './sheet.ts';
import { viewDrawings } from './views.ts';

/** Input of the drawings. The same input gives the same drawings, byte for byte. */
export interface DrawingsInput {
  design: Design;
  /** The solids of the corner, as built for the design. */
  solids: readonly Solid[];
  unit: LengthUnit;
  paper: Paper;
  /** Version of the program. */
  version: string;
  /** Date and time of the drawings, ISO 8601. */
  date: string;
}

/**
 * The drawings of a corner at ride height: front, side and top view, and the section through the wheel axis, each a sheet
 * with its main dimensions as SVG; without the section if it cuts no part. A right corner is drawn as a right one. Throws DesignProblems if the suspension makes no
 * mechanism.
 */
export function cornerDrawings({ design, solids, unit, paper, version, date }: DrawingsInput): Sheet[] {
  const facts = cornerFacts(design);
  const { name, side } = design.corner;
  const drawings = [...viewDrawings(facts, solids), sectionDrawing(facts, solids)].filter(
    (one) => one !== undefined,
  );
  const head = { name, side, unit, version, date, designHash: design.hash };
  return drawings.map((drawing, i) => sheetOf(drawing, head, paper, [i + 1, drawings.length]));
}
