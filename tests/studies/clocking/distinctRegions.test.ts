import { describe, expect, it } from 'vitest';
import { distinctRegions } from '../../../src/studies/clocking/distinctRegions.ts';
import type { Region } from '../../../src/studies/clocking/region.ts';
import type { Arc } from '../../../src/studies/clocking/spans.ts';

const WHOLE: Arc = { fromDeg: -180, toDeg: 180 };
const arc = (fromDeg: number, toDeg: number): Arc => ({ fromDeg, toDeg });
const region = (caliper: Arc, hub: Arc, between: Arc): Region => ({ caliper, hub, between, borders: [] });
const BY_QUARTERS = [-90, 0, 90, 180];

describe('regions of a hub with a period of a quarter turn', () => {
  it('are listed once if all four exist', () => {
    const regions = BY_QUARTERS.flatMap((deg) => [
      region(arc(70, 110), arc(deg + 40, deg + 46), WHOLE),
      region(arc(-20, 10), arc(deg + 40, deg + 46), WHOLE),
    ]);
    expect(distinctRegions(regions, 90)).toEqual([
      { region: regions[0], everyDeg: 90 },
      { region: regions[1], everyDeg: 90 },
    ]);
  });

  it('are listed once if the difference from the caliper is limited', () => {
    const free = BY_QUARTERS.map((deg) => region(WHOLE, WHOLE, arc(deg + 5, deg + 50)));
    expect(distinctRegions(free, 90)).toEqual([{ region: free[0], everyDeg: 90 }]);
    // The difference, which may be shifted by whole turns, decreases as the hub's clocking increases.
    const bound = BY_QUARTERS.map((deg, k) =>
      region(arc(0, 30), arc(deg, deg + 20), arc(360 * k - deg - 10, 360 * k - deg + 8)),
    );
    expect(distinctRegions(bound, 90)).toEqual([{ region: bound[0], everyDeg: 90 }]);
  });

  it('are listed separately if an allowed range shortens or excludes one', () => {
    const whole = BY_QUARTERS.map((deg) => region(arc(70, 110), arc(deg + 40, deg + 46), WHOLE));
    const cut = [...whole.slice(0, 3), region(arc(70, 110), arc(220, 224), WHOLE)];
    for (const regions of [whole.slice(0, 3), cut])
      expect(distinctRegions(regions, 90)).toEqual(
        regions.map((one) => ({ region: one, everyDeg: undefined })),
      );
  });

  it('are listed separately for a hub without a period', () => {
    const one = region(arc(70, 110), arc(40, 46), WHOLE);
    expect(distinctRegions([one], 360)).toEqual([{ region: one, everyDeg: undefined }]);
  });
});
