import type { CornerFiles } from '../../design/assets.ts';
import type { Design } from '../../design/design.ts';
import type { Findings } from '../../findings/findings.ts';
import type { LimitFinding } from '../../findings/limitFindings.ts';
import type { Alignment, PoseResult } from '../../mechanism/pose.ts';
import type { Proof } from '../../proof/prove.ts';
import type { Place } from '../../proof/proveBetween.ts';
import type { ReportPictures } from '../../report/pictures.ts';
import type { ReportInput } from '../../report/reportInput.ts';
import type { Solid } from '../../solids/solid.ts';
import type { Pair, UncheckedPair } from '../../sweep/pair.ts';
import type { SweepResult, SweepSettings } from '../../sweep/result.ts';
import type { Row } from '../../sweep/row.ts';
import type { Problem } from '../../units/problem.ts';

/** Interface between the screens and the computation. Travel in mm, steer as a fraction of lock, of the left corner. */
export interface Engine {
  /**
   * Reads a corner file with the files beside it and builds the corner, which replaces the open one. A file with problems is
   * a result, not an error; the open corner then stays.
   */
  open(files: CornerFiles): Promise<Opened>;
}

export type Opened = { kind: 'open'; corner: OpenCorner } | { kind: 'bad'; problems: readonly Problem[] };

/** A pose with its alignment; the alignment is undefined if the pose is unreachable. */
export interface PoseView {
  pose: PoseResult;
  alignment: Alignment | undefined;
}

/** Measures every pair at one pose at a time, in a worker. The newest request wins. */
export interface Probe {
  request(travelMm: number, steer: number): void;
  end(): void;
}

interface SweepCallbacks {
  signal: AbortSignal;
  /** Rows done, out of all rows. */
  onProgress(done: number, total: number): void;
  /** The result so far; the same object each time. */
  onPartial(result: SweepResult): void;
}

export interface ProofCallbacks {
  signal: AbortSignal;
  /** Pairs done, out of all pairs. */
  onProgress(done: number, total: number): void;
  /** Cells examined so far for all pairs; called a few times a second. */
  onCells(cells: number): void;
}

/** Indices of the pairs whose parts move relative to each other; the others are the same at every pose. */
export const movingPairs = ({ pairs }: Pick<OpenCorner, 'pairs'>): number[] =>
  pairs.flatMap(({ moves }, index) => (moves ? [index] : []));

/** Results of studies for a report. */
export type ReportStudies = Pick<ReportInput, 'mockup' | 'measuringError' | 'limits' | 'bolts'>;

/** A report before it is written in one of its forms. */
export interface ReportParts {
  input: ReportInput;
  pictures: ReportPictures;
}

/** An open corner: its solids, its pairs, and the requests it answers. */
export interface OpenCorner {
  design: Design;
  solids: readonly Solid[];
  pairs: readonly Pair[];
  unchecked: readonly UncheckedPair[];
  /** Settings of its mesh and sweep. */
  settings: SweepSettings;
  /** The steps of its sweep. */
  travelMm: Float64Array;
  steer: Float64Array;
  poseAt(travelMm: number, steer: number): PoseView;
  /**
   * Measures every pair at every step, and the limits of joints and dampers, which `findings` then includes. If cancelled,
   * rejects with the signal's reason; if a worker fails, with an Error.
   */
  sweep(callbacks: SweepCallbacks): Promise<SweepResult>;
  /** Proves the range between the steps of a complete sweep. Rejects like `sweep`. */
  prove(result: SweepResult, callbacks: ProofCallbacks): Promise<Proof>;
  /** Lower bounds on the clearance of a pair between each place and the next, mm; see `BetweenProver.lowerMm`. */
  between(pair: number, places: readonly Place[], leastMm: readonly number[]): Promise<readonly number[]>;
  findings(result: SweepResult, proof?: Proof): Findings;
  /** Limits of joints and dampers at one pose. */
  limitsAt(travelMm: number, steer: number): LimitFinding[];
  /** Starts a probe. `onRow` receives every pair at a requested pose: a row of one step. */
  probe(
    onRow: (travelMm: number, steer: number, row: Row) => void,
    onFailure: (why: string) => void,
  ): Promise<Probe>;
  /** Sends the built corner with its bodies to a port, for a worker of the page that measures on its own. */
  share(port: MessagePort): Promise<void>;
  /** What a clearance report is made of. */
  report(
    result: SweepResult,
    findings: Findings,
    studies: ReportStudies,
    unit: 'mm' | 'in',
  ): Promise<ReportParts>;
}
