import type { Corner } from '../../design/schema.ts';
import { entries } from '../../solids/wheelFrame.ts';
import { studyAssembly } from '../../studies/assembly/assembly.ts';
import { holeDistances } from '../../studies/holeDistances.ts';
import { figuresIn, type LengthUnit } from '../figures.ts';
import type { TextLine } from '../textLine.ts';
import { holeLines, reachLines, stepLines } from './assemblyLines.ts';
import { setLines } from './setLines.ts';

/** Lines about the bolts of a corner. */
export interface BoltsLines {
  reach: readonly TextLine[];
  steps: readonly TextLine[];
  sets: readonly TextLine[];
  holes: readonly TextLine[];
}

/** Checks that every bolt can be reached at its step of assembly. Without bolts: the holes alone. */
export async function boltsLines(corner: Corner, unit: LengthUnit): Promise<BoltsLines> {
  const figures = figuresIn(unit);
  const holes = holeLines(holeDistances(corner), figures);
  if (entries(corner, 'bolts').length === 0) return { reach: [], steps: [], sets: [], holes };
  const study = await studyAssembly(corner);
  return {
    reach: reachLines(study, corner, figures),
    steps: stepLines(study, corner),
    sets: setLines(corner, figures),
    holes,
  };
}
