import { useMemo } from 'react';
import type { Carriers } from '../../mechanism/pose.ts';
import { spinAxis } from '../../mechanism/spinAxis.ts';
import type { OpenCorner } from '../engine.ts';
import { type Measured, tapeBetween } from './measured.ts';
import { useTape } from './tapeStore.ts';

/** What lies between the two picks at a pose; undefined while there are not two. */
export function useTapeBetween(corner: OpenCorner): ((carriers: Carriers) => Measured) | undefined {
  const picks = useTape((tape) => tape.picks);
  return useMemo(() => {
    const [first, second] = picks;
    if (first === undefined || second === undefined) return undefined;
    const { side, suspension } = corner.design.corner;
    const axis = { centre: suspension.hardpoints.wheelCentre, outboard: spinAxis(suspension) };
    return tapeBetween(corner.solids, side, [first, second], axis);
  }, [picks, corner]);
}
