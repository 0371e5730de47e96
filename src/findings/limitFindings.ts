import type { MeasuredLimit } from '../sweep/limit.ts';

/** binds: some pose exceeds the allowed value, or that cannot be excluded. clear: no pose does. */
export type LimitState = 'binds' | 'unknown' | 'clear';

/** Used and allowed value of one joint or damper, in the unit of `unit`: degrees for a tilt, mm for a length. */
export interface LimitFinding extends Omit<MeasuredLimit, 'complete'> {
  state: LimitState;
  /** The largest tilt found, or the damper's shortest or longest length; undefined if no pose is reached. */
  used: number | undefined;
  /** What is left at the worst pose found; below 0 if it binds. Undefined if `used` or `allowed` is. */
  left: number | undefined;
  /** Bound on how far an unmeasured pose may exceed `used`; undefined if that is not proved. */
  errorBound: number | undefined;
}

/** What is left up to the allowed value; below 0 beyond it. */
export const leftAt = ({ kind }: Pick<MeasuredLimit, 'kind'>, used: number, allowed: number): number =>
  kind === 'damperClosed' ? used - allowed : allowed - used;

/** The proven bound decides, so that a limit is only clear if the proof excludes binding. */
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

/** The findings about joints and dampers: binding ones first, then unknown ones, then clear ones. */
export const limitFindings = (limits: readonly MeasuredLimit[]): LimitFinding[] =>
  limits.map(findLimit).sort((a, b) => ORDER.indexOf(a.state) - ORDER.indexOf(b.state));

/** 1 at each step where a limit is exceeded, else 0. */
export const bindingSteps = (limits: readonly MeasuredLimit[], steps: number): Uint8Array =>
  Uint8Array.from({ length: steps }, (_, step) =>
    limits.some(
      (limit) => limit.allowed !== undefined && leftAt(limit, limit.usedAtSteps[step], limit.allowed) < 0,
    )
      ? 1
      : 0,
  );
