import { useMemo } from 'react';
import type { Carriers } from '../../../mechanism/pose.ts';
import type { OpenCorner } from '../../state/engine.ts';
import { type Measured, tapeBetween } from './measured.ts';
import { useTape } from './tapeStore.ts';

/** Measures between the two picks at a pose; undefined unless there are two picks. */
export function useTapeBetween(corner: OpenCorner): ((carriers: Carriers) => Measured) | undefined {
  const picks = useTape((tape) => tape.picks);
  return useMemo(() => {
    const [first, second] = picks;
    if (first === undefined || second === undefined) return undefined;
    return tapeBetween(corner.design.corner, corner.solids, [first, second]);
  }, [picks, corner]);
}
