import type { Design } from '../design/design.ts';
import type { PairContact } from '../findings/contactsOf.ts';
import type { Findings } from '../findings/findings.ts';
import type { Alignment } from '../mechanism/pose.ts';
import type { Solid } from '../solids/solid.ts';
import type { LimitsStudy } from '../studies/limits/limitsStudy.ts';
import type { MockupStudy } from '../studies/mockup/mockup.ts';
import type { SweepResult } from '../sweep/result.ts';
import type { UnitChoice } from '../units/formatLength.ts';
import type { BoltsLines } from './bolts/boltsLines.ts';
import type { EarlierReport } from './earlierReport.ts';
import type { MeasuringErrorInWords } from './measuringError/measuringErrorInWords.ts';

/** A checked corner and its results. */
export interface Checked {
  design: Design;
  solids: readonly Solid[];
  result: SweepResult;
  findings: Findings;
  /** Contacts of the touching pairs, by the pair's index. */
  contacts: ReadonlyMap<number, PairContact>;
}

/** Input of a report. The same input gives the same report, byte for byte. */
export interface ReportInput extends Checked {
  /** At ride height, straight ahead, for the left corner. */
  alignmentAtRideHeight: Alignment;
  /** Why the mechanism cannot reach a pose, in a sentence; undefined if it can. */
  whyUnreachable(travelMm: number, steer: number): string | undefined;
  /** The gaps of the mock-up, compared; undefined if the file has none. */
  mockup: MockupStudy | undefined;
  /** What the ± of the measured values can take, in the report's unit; undefined if it was not studied. */
  measuringError: MeasuringErrorInWords | undefined;
  /** Alignment over travel and steering, stops and lock-outs; left out if they are not computed. */
  limits?: LimitsStudy | undefined;
  /** The bolts, holes and the order of assembly; left out if they are not checked. */
  bolts?: BoltsLines | undefined;
  /** An earlier report to compare with. */
  against?: EarlierReport | undefined;
  unit: UnitChoice;
  /** Version of the program. */
  version: string;
  /** Date and time of the report, ISO 8601. */
  date: string;
}
