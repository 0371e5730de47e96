import { expose } from 'comlink';
import type { Corner } from '../../../design/schema.ts';
import { holeLines, reachLines, stepLines } from '../../../report/bolts/assemblyLines.ts';
import { setLines } from '../../../report/bolts/setLines.ts';
import { figuresIn, type LengthUnit } from '../../../report/figures.ts';
import type { TextLine } from '../../../report/textLine.ts';
import { studyAssembly } from '../../../studies/assembly/assembly.ts';
import { holeDistances } from '../../../studies/holeDistances.ts';

/** Lines about the bolts of a corner. */
export interface BoltsLines {
  reach: readonly TextLine[];
  steps: readonly TextLine[];
  sets: readonly TextLine[];
  holes: readonly TextLine[];
}

const api = {
  async checkBolts(corner: Corner, unit: LengthUnit): Promise<BoltsLines> {
    const figures = figuresIn(unit);
    const study = await studyAssembly(corner);
    return {
      reach: reachLines(study, corner, figures),
      steps: stepLines(study, corner),
      sets: setLines(corner, figures),
      holes: holeLines(holeDistances(corner), figures),
    };
  },
};
export type BoltsApi = typeof api;
expose(api);
