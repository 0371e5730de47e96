import type { Design } from '../design/design.ts';
import type { PairContact } from '../findings/contactsOf.ts';
import type { Findings } from '../findings/findings.ts';
import type { Alignment } from '../mechanism/pose.ts';
import type { Solid } from '../solids/solid.ts';
import type { SweepResult } from '../sweep/result.ts';
import type { UnitChoice } from '../units/formatLength.ts';

/** What was checked and what came of it. */
export interface Checked {
  design: Design;
  solids: readonly Solid[];
  result: SweepResult;
  findings: Findings;
  /** Where touching pairs meet, by the pair's index. */
  contacts: ReadonlyMap<number, PairContact>;
}

/** All that a report is made of: the same input gives the same report, to the byte. */
export interface ReportInput extends Checked {
  /** At ride height, straight ahead, of the left corner. */
  alignmentAtRideHeight: Alignment;
  /** Why the mechanism cannot reach a pose, in a sentence; undefined where it can. */
  whyUnreachable(travelMm: number, steer: number): string | undefined;
  unit: UnitChoice;
  /** Of the program. */
  version: string;
  /** When the report was made, ISO 8601. */
  date: string;
}
