import type { Corner } from '../../design/schema.ts';
import { holeLines, reachLines, stepLines } from '../../report/bolts/assemblyLines.ts';
import { setLines } from '../../report/bolts/setLines.ts';
import { figuresIn, type LengthUnit } from '../../report/figures.ts';
import { studyAssembly } from '../../studies/assembly/assembly.ts';
import { holeDistances } from '../../studies/holeDistances.ts';

/** Lines about the bolts of a corner, indented by two spaces a level. */
export interface BoltsLines {
  reach: readonly string[];
  steps: readonly string[];
  sets: readonly string[];
  holes: readonly string[];
}

export interface BoltsRequest {
  corner: Corner;
  unit: LengthUnit;
}

export type BoltsReply = { kind: 'told'; lines: BoltsLines } | { kind: 'failed'; why: string };

self.addEventListener('message', ({ data: { corner, unit } }: MessageEvent<BoltsRequest>) => {
  const figures = figuresIn(unit);
  studyAssembly(corner).then(
    (study) => {
      const lines: BoltsLines = {
        reach: reachLines(study, corner, figures),
        steps: stepLines(study, corner),
        sets: setLines(corner, figures),
        holes: holeLines(holeDistances(corner), figures),
      };
      self.postMessage({ kind: 'told', lines } satisfies BoltsReply);
    },
    (error: Error) => self.postMessage({ kind: 'failed', why: error.message } satisfies BoltsReply),
  );
});
