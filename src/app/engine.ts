import type { Design } from '../design/design.ts';
import type { Problem } from '../design/problem.ts';
import type { Findings } from '../findings/findings.ts';
import type { LimitFinding } from '../findings/limitFindings.ts';
import type { Alignment, PoseResult } from '../mechanism/pose.ts';
import type { Solid } from '../solids/solid.ts';
import type { Pair, UncheckedPair } from '../sweep/pair.ts';
import type { Proof } from '../sweep/prove.ts';
import type { Place } from '../sweep/proveBetween.ts';
import type { SweepResult, SweepSettings } from '../sweep/result.ts';
import type { Row } from '../sweep/row.ts';

/** All that the screens ask of what computes. Travel in mm, steer as a fraction of lock, both of the left corner. */
export interface Engine {
  /**
   * Reads the text of a corner file and makes it ready, from then on in place of the corner that was open. A bad file is
   * an answer, not an error: the corner that was open stays.
   */
  open(text: string): Promise<Opened>;
}

export type Opened = { kind: 'open'; corner: OpenCorner } | { kind: 'bad'; problems: readonly Problem[] };

/** A pose with what is read off it; no alignment where it is unreachable. */
export interface PoseView {
  pose: PoseResult;
  alignment: Alignment | undefined;
}

/** Measures every pair at one pose after the other, away from the screen's thread; the newest question wins. */
export interface Probe {
  ask(travelMm: number, steer: number): void;
  end(): void;
}

export interface SweepCallbacks {
  signal: AbortSignal;
  /** Rows done, of all rows. */
  onProgress(done: number, total: number): void;
  /** The result so far; the same object each time. */
  onPartial(result: SweepResult): void;
}

export interface ProofCallbacks {
  signal: AbortSignal;
  /** Pairs done, of all pairs. */
  onProgress(done: number, total: number): void;
  /** Cells looked at so far, of all pairs; a few times a second. */
  onCells(cells: number): void;
}

/** Pairs whose parts move against each other; the others are the same at every pose. */
export const movingPairs = ({ pairs }: Pick<OpenCorner, 'pairs'>): number[] =>
  pairs.flatMap(({ moves }, index) => (moves ? [index] : []));

/** A corner that is open: its bodies, its pairs, and what can be asked of it. */
export interface OpenCorner {
  design: Design;
  solids: readonly Solid[];
  pairs: readonly Pair[];
  unchecked: readonly UncheckedPair[];
  /** How finely it is built and swept. */
  settings: SweepSettings;
  /** The steps of its sweep. */
  travelMm: Float64Array;
  steer: Float64Array;
  poseAt(travelMm: number, steer: number): PoseView;
  /**
   * Every pair at every step, and the limits of joints and dampers, which `findings` then holds. Rejects with the signal's
   * reason when cancelled, with an Error when a worker fails.
   */
  sweep(callbacks: SweepCallbacks): Promise<SweepResult>;
  /** Proves what lies between the steps of a whole sweep. Rejects as a sweep does. */
  prove(result: SweepResult, callbacks: ProofCallbacks): Promise<Proof>;
  /** A clearance that a pair keeps on the way from each place to the next, mm; see `BetweenProver.lowerMm`. */
  between(pair: number, places: readonly Place[], leastMm: readonly number[]): Promise<readonly number[]>;
  findings(result: SweepResult, proof?: Proof): Findings;
  /** Joints and dampers at one pose. */
  limitsAt(travelMm: number, steer: number): LimitFinding[];
  /** `onRow` gets every pair at a pose that was asked for: a row of one step. */
  probe(
    onRow: (travelMm: number, steer: number, row: Row) => void,
    onFailure: (why: string) => void,
  ): Promise<Probe>;
  /** Puts the corner as it was built, bodies and all, into a port: a worker of the page measures on it by itself. */
  share(port: MessagePort): Promise<void>;
  /** The clearance report, a complete HTML page. */
  report(result: SweepResult, findings: Findings, unit: 'mm' | 'in'): Promise<string>;
}
