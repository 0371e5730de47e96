import type { PairState } from '../../findings/findings.ts';
import type { LimitState } from '../../findings/limitFindings.ts';

const CROSS = 'M2 2L10 10M2 10L10 2';
const SHAPES: Partial<Record<PairState | LimitState, string>> = {
  touches: CROSS,
  binds: CROSS,
  tight: 'M1.500 1.500V10.500H10.500Z',
  unknown: 'M3.200 4a2.800 2.800 0 1 1 3.800 2.600c-.8.3-1 .7-1 1.600M6 10v.6',
};

/** The mark of a state: cross, wedge or question mark; clear and far have none. The caller adds the word. */
export function StateMark({ state }: { state: PairState | LimitState }) {
  const shape = SHAPES[state];
  return (
    <svg className="mark" data-state={state} viewBox="0 0 12 12" width="12" height="12" aria-hidden="true">
      {shape !== undefined && <path d={shape} />}
    </svg>
  );
}
