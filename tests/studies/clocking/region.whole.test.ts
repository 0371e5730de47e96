import { describe, expect, it } from 'vitest';
import { candidatesOf, leastAt } from '../../../src/studies/clocking/candidates.ts';
import { isInRegion, type RegionAxes, regionsOf } from '../../../src/studies/clocking/region.ts';
import { type Arc, isInArc, wrapDeg } from '../../../src/studies/clocking/spans.ts';
import { unmetWants } from '../../../src/studies/clocking/unmet.ts';
import { between, mulberry32 } from '../../oracles/random.ts';
import { fakeAxis, type Wave, waveAt } from './fakeAxis.ts';

const WHOLE: Arc = { fromDeg: -180, toDeg: 180 };
const STEP = 3;
const COUNT = 360 / STEP;
/** Distance from the ends of arcs, which are not proved to the last hundredth of a degree. */
const gridDeg = (k: number) => -180 + STEP * k + 0.37;

interface Case {
  waves: { caliper: Wave[]; hub: Wave[]; between: Wave[] };
  axes: RegionAxes;
}

function randomCase(seed: number): Case {
  const random = mulberry32(seed);
  const wave = (): Wave => ({
    middleMm: between(random, -3, 6),
    heightMm: 8,
    waves: 1 + Math.floor(random() * 3),
    topDeg: between(random, -180, 180),
  });
  const some = () => Array.from({ length: Math.floor(random() * 2.5) }, wave);
  const waves = { caliper: some(), hub: some(), between: some() };
  const range = (): Arc[] => {
    if (random() < 0.5) return [WHOLE];
    const fromDeg = between(random, -180, 100);
    return [{ fromDeg, toDeg: fromDeg + between(random, 40, 250) }];
  };
  return {
    waves,
    axes: {
      caliper: fakeAxis(waves.caliper),
      hub: fakeAxis(waves.hub, 10),
      between: fakeAxis(waves.between, 20),
      caliperAllowed: range(),
      hubAllowed: range(),
    },
  };
}

const leastOf = (waves: readonly Wave[], deg: number): number =>
  Math.min(Number.POSITIVE_INFINITY, ...waves.map((wave) => waveAt(wave, deg)));

/**
 * Connected cells of a grid on the torus in which everything clears, by flood fill: the number of each cell's
 * component, -1 for none.
 */
function flooded({ waves, axes }: Case): Int32Array {
  const free = (a: number, b: number): boolean =>
    leastOf(waves.caliper, a) >= 0 &&
    leastOf(waves.hub, b) >= 0 &&
    leastOf(waves.between, a - b) >= 0 &&
    axes.caliperAllowed.some((arc) => isInArc(arc, a)) &&
    axes.hubAllowed.some((arc) => isInArc(arc, b));
  const numbers = new Int32Array(COUNT * COUNT).fill(-1);
  const clear = Array.from({ length: COUNT * COUNT }, (_, k) =>
    free(gridDeg(Math.floor(k / COUNT)), gridDeg(k % COUNT)),
  );
  let next = 0;
  for (let start = 0; start < clear.length; start++) {
    if (!clear[start] || numbers[start] >= 0) continue;
    const waiting = [start];
    numbers[start] = next;
    for (let cell = waiting.pop(); cell !== undefined; cell = waiting.pop()) {
      const [a, b] = [Math.floor(cell / COUNT), cell % COUNT];
      for (const [da, db] of [
        [1, 0],
        [-1, 0],
        [0, 1],
        [0, -1],
        [1, 1],
        [-1, -1],
      ]) {
        const beside = ((a + da + COUNT) % COUNT) * COUNT + ((b + db + COUNT) % COUNT);
        if (!clear[beside] || numbers[beside] >= 0) continue;
        numbers[beside] = next;
        waiting.push(beside);
      }
    }
    next += 1;
  }
  return numbers;
}

describe('regions of two clockings', () => {
  it.each(Array.from({ length: 24 }, (_, k) => 100 + k))(
    'hold the same cells as a flood, and do not join what it parts: seed %i',
    (seed) => {
      const one = randomCase(seed);
      const regions = regionsOf(one.axes);
      const numbers = flooded(one);
      const numberOf = new Map<number, number>();
      numbers.forEach((number, cell) => {
        const [a, b] = [gridDeg(Math.floor(cell / COUNT)), gridDeg(cell % COUNT)];
        const held = regions.flatMap((region, r) => (isInRegion(region, a, b) ? [r] : []));
        const nearEnd = [
          leastOf(one.waves.caliper, a),
          leastOf(one.waves.hub, b),
          leastOf(one.waves.between, a - b),
        ].some((margin) => Math.abs(margin) < 0.02);
        if (nearEnd) return;
        expect(held.length).toBe(number >= 0 ? 1 : 0);
        if (number < 0) return;
        // A component of the flood fill is in one region. The grid may split a region that is narrower than a step.
        expect(numberOf.get(number) ?? held[0]).toBe(held[0]);
        numberOf.set(number, held[0]);
      });
      const pieces = new Set(numbers.filter((number) => number >= 0)).size;
      if (regions.length === 0) expect(pieces).toBe(0);
    },
  );

  it('end at pairs that no longer clear, and at the allowed range', () => {
    // Margins of 8 cos(a) and 8 cos(a - 40) clear together from -50 to 90.
    const caliper = fakeAxis([
      { middleMm: 0, heightMm: 8, waves: 1, topDeg: 0 },
      { middleMm: 0, heightMm: 8, waves: 1, topDeg: 40 },
    ]);
    const free = fakeAxis([]);
    const axes = { caliper, hub: free, between: free, hubAllowed: [WHOLE] };
    const [region, ...others] = regionsOf({ ...axes, caliperAllowed: [WHOLE] });
    expect(others).toEqual([]);
    const [from, to] = region.borders;
    expect(from).toMatchObject({ about: 'caliper', end: 'from', limitedBy: [1] });
    expect(to).toMatchObject({ about: 'caliper', end: 'to', limitedBy: [0] });
    expect(Math.abs(from.deg - -50)).toBeLessThan(0.1);
    expect(Math.abs(to.deg - 90)).toBeLessThan(0.1);
    const [ranged] = regionsOf({ ...axes, caliperAllowed: [{ fromDeg: 370, toDeg: 500 }] });
    expect(ranged.borders[0]).toEqual({ about: 'caliper', end: 'from', deg: 370, limitedBy: [] });
    expect(ranged.borders[1].limitedBy).toEqual([0]);
  });
});

describe('candidates', () => {
  const options = { apartDeg: 15, most: 6, drawn: { caliperDeg: 5, hubDeg: 20 }, hubPeriodDeg: 360 };

  it.each(Array.from({ length: 12 }, (_, k) => 200 + k))(
    'clear, are as good as any whole degrees near them, and stand apart: seed %i',
    (seed) => {
      const { axes } = randomCase(seed);
      const regions = regionsOf(axes);
      const found = candidatesOf(axes, regions, options);
      if (regions.length > 0) expect(found.length).toBeGreaterThan(0);
      let best = Number.NEGATIVE_INFINITY;
      for (let a = -180; a < 180; a += 4)
        for (let b = -180; b < 180; b += 4)
          if (regions.some((region) => isInRegion(region, a, b)))
            best = Math.max(best, leastAt(axes, { caliperDeg: a, hubDeg: b }).marginMm);
      found.forEach((one, k) => {
        expect(isInRegion(regions[one.region], one.caliperDeg, one.hubDeg)).toBe(true);
        expect(one.least).toEqual(leastAt(axes, one));
        if (k > 0) expect(one.least.marginMm).toBeLessThanOrEqual(found[k - 1].least.marginMm);
        for (const other of found.slice(0, k)) {
          const apart = Math.max(
            Math.abs(wrapDeg(one.caliperDeg - other.caliperDeg)),
            Math.abs(wrapDeg(one.hubDeg - other.hubDeg)),
          );
          if (other.region === one.region) expect(apart).toBeGreaterThan(15);
        }
      });
      if (found.length > 0) expect(found[0].least.marginMm).toBeGreaterThanOrEqual(best);
    },
  );

  it('are found in a window too narrow for a whole degree', () => {
    // 8 cos(3 a) - 7.9994 is at least 0 for a quarter of a degree to either side of its maxima at 10.5 and every 120
    // degrees further.
    const caliper = fakeAxis([{ middleMm: -7.9994, heightMm: 8, waves: 3, topDeg: 10.5 }]);
    const free = fakeAxis([]);
    const axes = { caliper, hub: free, between: free, caliperAllowed: [WHOLE], hubAllowed: [WHOLE] };
    const found = candidatesOf(axes, regionsOf(axes), options);
    expect(found.map(({ caliperDeg }) => caliperDeg).toSorted((a, b) => a - b)).toEqual([
      -109.5, 10.5, 130.5,
    ]);
    expect(found.every(({ hubDeg }) => hubDeg === 20)).toBe(true);
    expect(found[0].caliperDeg).toBe(10.5);
  });

  it('do not repeat after a period of the hub', () => {
    const hub = fakeAxis([{ middleMm: 1, heightMm: 8, waves: 4, topDeg: 10 }]);
    const free = fakeAxis([]);
    const axes = {
      caliper: free,
      hub,
      between: free,
      caliperAllowed: [{ fromDeg: 0, toDeg: 3 }],
      hubAllowed: [WHOLE],
    };
    const found = candidatesOf(axes, regionsOf(axes), { ...options, hubPeriodDeg: 90 });
    expect(found.map(({ hubDeg }) => hubDeg)).toEqual([10]);
  });
});

describe('unmet requirements', () => {
  // 8 cos(a) clears from -90 to 90.
  const caliper = fakeAxis([{ middleMm: 0, heightMm: 8, waves: 1, topDeg: 0 }]);
  const free = fakeAxis([]);
  const axes = { caliper, hub: free, between: free, caliperAllowed: [WHOLE], hubAllowed: [WHOLE] };
  const range = (fromDeg: number, toDeg: number) =>
    ({ want: 'caliperRange', about: 'caliper', arcs: [{ fromDeg, toDeg }] }) as const;

  it('are listed with the limiting pair and its shortfall', () => {
    const [unmet, ...others] = unmetWants(axes, [range(120, 200)]);
    expect(others).toEqual([]);
    expect(unmet).toMatchObject({ wants: ['caliperRange'], contradiction: false });
    expect(unmet.best?.clockings.caliperDeg).toBe(120);
    expect(unmet.best?.least.limitedBy).toBe(0);
    expect(unmet.best?.least.marginMm).toBeCloseTo(8 * Math.cos((120 * Math.PI) / 180), 9);
  });

  it('are empty if all can be met', () => {
    expect(unmetWants(axes, [range(60, 200)])).toEqual([]);
  });

  it('include two that contradict each other', () => {
    const bleed = { want: 'bleedWithinDeg', about: 'caliper', arcs: [{ fromDeg: -40, toDeg: -10 }] } as const;
    const [unmet] = unmetWants(axes, [range(20, 60), bleed]);
    expect(unmet).toMatchObject({ wants: ['caliperRange', 'bleedWithinDeg'], contradiction: true });
  });

  it('have a single entry if nothing clears at all', () => {
    const none = fakeAxis([{ middleMm: -9, heightMm: 8, waves: 1, topDeg: 33 }]);
    const [unmet, ...others] = unmetWants({ ...axes, caliper: none }, [range(20, 60)]);
    expect(others).toEqual([]);
    expect(unmet.wants).toEqual([]);
    expect(unmet.best?.clockings.caliperDeg).toBe(33);
    expect(unmet.best?.least.marginMm).toBeCloseTo(-1, 9);
  });
});

describe('candidates of a hub with a period', () => {
  // Four bolts, clear near 45 degrees and its quarter turns; the end of the first period is in the middle of that
  // range.
  const hub = fakeAxis([{ middleMm: -4, heightMm: 8, waves: 4, topDeg: 45 }], 10);
  const axes: RegionAxes = {
    caliper: fakeAxis([{ middleMm: 2, heightMm: 1, waves: 1, topDeg: 70 }]),
    hub,
    between: fakeAxis([]),
    caliperAllowed: [WHOLE],
    hubAllowed: [WHOLE],
  };
  const options = { apartDeg: 15, most: 5, drawn: { caliperDeg: 70, hubDeg: 0 }, hubPeriodDeg: 90 };

  it('are not repeated across the end of a period', () => {
    const found = candidatesOf(axes, regionsOf(axes), options);
    expect(found.length).toBeGreaterThan(0);
    const past = (deg: number, period: number) =>
      Math.min(...[0, 1].map((k) => Math.abs((((deg % period) + period) % period) - k * period)));
    found.forEach((one, i) => {
      for (const other of found.slice(i + 1))
        expect(
          Math.max(past(one.caliperDeg - other.caliperDeg, 360), past(one.hubDeg - other.hubDeg, 90)),
          `${JSON.stringify(one)} ${JSON.stringify(other)}`,
        ).toBeGreaterThan(15);
    });
  });
});
