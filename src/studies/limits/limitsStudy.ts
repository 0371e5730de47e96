import type { AlignmentStudy } from './alignmentStudy.ts';
import type { LockOutDistance } from './lockOuts.ts';
import type { ShownStops } from './stops.ts';

/** What the studies of limits have found. `stops` and `lockOuts`: undefined if only the alignment was asked for. */
export interface LimitsStudy {
  alignment: AlignmentStudy;
  stops: ShownStops | undefined;
  lockOuts: readonly LockOutDistance[] | undefined;
}
