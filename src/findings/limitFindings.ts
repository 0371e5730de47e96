import type { MeasuredLimit } from '../sweep/limit.ts';

/** binds: at some pose it goes beyond what is allowed, or that cannot be excluded. clear: it never does. */
export type LimitState = 'binds' | 'unknown' | 'clear';

/** Of one joint or damper, what is used of what is allowed. Degrees for a tilt, mm for a length: `unit`. */
export interface LimitFinding extends Omit<MeasuredLimit, 'complete'> {
  state: LimitState;
  /** The largest tilt found, or the damper's shortest or longest length; undefined where no pose is reached. */
  used: number | undefined;
  /** What is left at the worst pose found; below 0 where it binds. Undefined where `used` or `allowed` is. */
  left: number | undefined;
  /** How far beyond `used` a pose may go that was not found; undefined where that is not proved. */
  errorBound: number | undefined;
}

/** What is left to a value that is allowed; below 0 beyond it. */
const leftAt = ({ kind }: Pick<MeasuredLimit, 'kind'>, used: number, allowed: number): number =>
  kind === 'damperClosed' ? used - allowed : allowed - used;

/** Bound of what is proved decides, so that a limit that the proof cannot keep clear of is not called clear. */
function stateOf(limit: MeasuredLimit): LimitState {
  const { allowed, worst, proven, complete } = limit;
  if (allowed === undefined || worst === undefined) return 'unknown';
  if (leftAt(limit, worst.used, allowed) < 0) return 'binds';
  if (proven !== undefined && leftAt(limit, proven, allowed) >= 0) return 'clear';
  return complete ? 'binds' : 'unknown';
}

function findLimit(limit: MeasuredLimit): LimitFinding {
  const { complete: _, ...rest } = limit;
  const { allowed, worst, proven } = limit;
  const used = worst?.used;
  return {
    ...rest,
    state: stateOf(limit),
    used,
    left: used === undefined || allowed === undefined ? undefined : leftAt(limit, used, allowed),
    errorBound: used === undefined || proven === undefined ? undefined : Math.abs(proven - used),
  };
}

const ORDER: readonly LimitState[] = ['binds', 'unknown', 'clear'];

/** The findings about joints and dampers: what binds first, then unknown ones, then clear ones. */
export const limitFindings = (limits: readonly MeasuredLimit[]): LimitFinding[] =>
  limits.map(findLimit).sort((a, b) => ORDER.indexOf(a.state) - ORDER.indexOf(b.state));

/** 1 at each of so many steps where a limit is passed, else 0. */
export const bindingSteps = (limits: readonly MeasuredLimit[], steps: number): Uint8Array =>
  Uint8Array.from({ length: steps }, (_, step) =>
    limits.some(
      (limit) => limit.allowed !== undefined && leftAt(limit, limit.usedAtSteps[step], limit.allowed) < 0,
    )
      ? 1
      : 0,
  );
