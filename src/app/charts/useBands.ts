import { useEffect, useState } from 'react';
import { chartTopMm, type Line, lesserOfTwo, type Series } from '../../report/curves/series.ts';
import type { SweepResult } from '../../sweep/result.ts';
import { isSwept, useCorner } from '../state/cornerStore.ts';
import type { OpenCorner } from '../state/engine.ts';

/** Delay after a change of line before its bands are proved, ms. */
const DELAY_MS = 150;

const EMPTY: ReadonlyMap<number, readonly number[]> = new Map();

/**
 * Lower bounds of each series between neighbouring steps, by pair, mm; -Infinity if nothing is proved. Empty until the sweep
 * is complete, and while the pose moves between lines.
 */
export function useBands(
  corner: OpenCorner,
  result: SweepResult | undefined,
  line: Line,
  series: readonly Series[],
): ReadonlyMap<number, readonly number[]> {
  const [proved, setProved] = useState({ key: '', bands: EMPTY });
  const complete = useCorner(({ progress }) => isSwept(progress));
  const pairs = series.map(({ pair }) => pair).join();
  const key = `${corner.design.hash} ${line.steps[0]} ${line.steps.at(-1)} ${pairs}`;

  // biome-ignore lint/correctness/useExhaustiveDependencies: `key` identifies corner, line and pairs, whose objects are new at each render
  useEffect(() => {
    if (!complete || result === undefined || series.length === 0) return;
    let active = true;
    const prove = async () => {
      const bands = new Map<number, readonly number[]>();
      for (const one of series) {
        // Values above the top of the chart need no proof.
        const enoughMm = chartTopMm([corner.pairs[one.pair].targetMm]);
        const leastMm = lesserOfTwo(one).map((mm) => Math.min(mm, enoughMm));
        bands.set(one.pair, await corner.between(one.pair, line.places, leastMm));
        if (!active) return;
      }
      setProved({ key, bands });
    };
    // If a worker dies, the sweep and the pose report it; the chart shows no bands.
    const timer = setTimeout(() => void prove().catch(() => {}), DELAY_MS);
    return () => {
      active = false;
      clearTimeout(timer);
    };
  }, [key, complete]);
  return proved.key === key ? proved.bands : EMPTY;
}
