import { useEffect, useState } from 'react';
import type { SweepResult } from '../../sweep/result.ts';
import type { OpenCorner } from '../engine.ts';
import { isSwept, useCorner } from '../stores/cornerStore.ts';
import { type Line, lesserOfTwo, type Series, tallestMm } from './series.ts';

/** A line is looked at between its steps when the pose has rested on it this long, ms. */
const REST_MS = 150;

const NONE: ReadonlyMap<number, readonly number[]> = new Map();

/**
 * What each series keeps on the way from one step to the next, by pair, mm; -Infinity where nothing is proved. Empty until
 * the sweep is whole, and while the pose moves from line to line.
 */
export function useBands(
  corner: OpenCorner,
  result: SweepResult | undefined,
  line: Line,
  series: readonly Series[],
): ReadonlyMap<number, readonly number[]> {
  const [known, setKnown] = useState({ key: '', bands: NONE });
  const whole = useCorner(({ progress }) => isSwept(progress));
  const pairs = series.map(({ pair }) => pair).join();
  const key = `${corner.design.hash} ${line.steps[0]} ${line.steps.at(-1)} ${pairs}`;

  // biome-ignore lint/correctness/useExhaustiveDependencies: `key` identifies corner, line and pairs, whose objects are new at each render
  useEffect(() => {
    if (!whole || result === undefined || series.length === 0) return;
    let wanted = true;
    const ask = async () => {
      const bands = new Map<number, readonly number[]>();
      for (const one of series) {
        // What no chart has room for need not be proved.
        const enoughMm = tallestMm([corner.pairs[one.pair].targetMm]);
        const leastMm = lesserOfTwo(one).map((mm) => Math.min(mm, enoughMm));
        bands.set(one.pair, await corner.between(one.pair, line.places, leastMm));
        if (!wanted) return;
      }
      setKnown({ key, bands });
    };
    // A worker that dies is told of by the sweep and the pose; the chart then goes without.
    const timer = setTimeout(() => void ask().catch(() => {}), REST_MS);
    return () => {
      wanted = false;
      clearTimeout(timer);
    };
  }, [key, whole]);
  return known.key === key ? known.bands : NONE;
}
