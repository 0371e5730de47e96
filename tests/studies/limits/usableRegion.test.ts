import { describe, expect, it } from 'vitest';
import { bestRectangle } from '../../../src/studies/limits/bestRectangle.ts';
import { type Headroom, leastHeadroom } from '../../../src/studies/limits/headroom.ts';
import { numberedStretches, usableRegion } from '../../../src/studies/limits/usableRegion.ts';
import { stepsThroughZero } from '../../../src/sweep/steps.ts';
import { between, mulberry32 } from '../../oracles/random.ts';

/** Travel -60 to 40 mm, and 30 mm of steering input to either side. */
const GRID = { travelMm: stepsThroughZero(-60, 40, 11), steer: stepsThroughZero(-1, 1, 9) };
const inputAt = (steer: number) => 30 * steer;
const pair = (index: number, left: (travelMm: number, input: number) => number): Headroom => ({
  bound: { kind: 'pair', pair: index },
  left: Float64Array.from({ length: GRID.travelMm.length * GRID.steer.length }, (_, step) =>
    left(GRID.travelMm[Math.floor(step / 9)], inputAt(GRID.steer[step % 9])),
  ),
});
const region = (...headroom: Headroom[]) => usableRegion(GRID, headroom, inputAt) ?? expect.fail('no region');
const WHOLE = 100 * 60;

describe('the usable region', () => {
  it('is all that was asked for if nothing fails', () => {
    const { edges, share } = region();
    expect(share).toBeCloseTo(1, 12);
    expect(edges.map((edge) => edge.map(({ bound }) => bound.kind))).toEqual([['asked']]);
  });

  it('ends where the headroom is 0 between two steps', () => {
    const { edges, share } = region(pair(3, (travel) => 33 - travel));
    expect(share).toBeCloseTo(93 / 100, 12);
    const [edge] = edges;
    expect(edge.map(({ bound }) => bound)).toEqual([{ kind: 'pair', pair: 3 }, { kind: 'asked' }]);
    for (const { travelMm } of edge[0].points) expect(travelMm).toBeCloseTo(33, 12);
    expect(edge[0].points.map(({ steer }) => steer)).toEqual([...GRID.steer].reverse());
  });

  it('has the exact area of a half plane of travel and steering input', () => {
    for (let seed = 1; seed <= 20; seed++) {
      const random = mulberry32(seed);
      const [a, b, c] = [between(random, -1, 1), between(random, -1, 1), between(random, 5, 20)];
      const { share } = region(pair(0, (travel, input) => c - a * travel - b * input));
      // Slow oracle: the share of a fine grid of points.
      let inside = 0;
      for (let i = 0; i < 400; i++)
        for (let j = 0; j < 400; j++)
          if (c - a * (-60 + (i + 0.5) / 4) - b * (-30 + ((j + 0.5) * 60) / 400) >= 0) inside++;
      expect(Math.abs(share - inside / 160_000), `seed ${seed}`).toBeLessThan(2e-3);
    }
  });

  it('names each stretch by what bounds it first', () => {
    const { edges } = region(
      pair(1, (travel, input) => 25 - travel - 0.1 * input),
      pair(2, (travel, input) => 25 - travel + 0.1 * input),
    );
    expect(edges[0].map(({ bound }) => ('pair' in bound ? bound.pair : bound.kind))).toEqual([1, 2, 'asked']);
  });

  it('numbers the stretches that the file does not ask for, each at its middle', () => {
    const numbered = numberedStretches(
      region(
        pair(1, (travel, input) => 25 - travel - 0.1 * input),
        pair(2, (travel, input) => 25 - travel + 0.1 * input),
      ),
    );
    expect(numbered.map(({ number, stretch }) => [number, stretch.bound])).toEqual([
      [1, { kind: 'pair', pair: 1 }],
      [2, { kind: 'pair', pair: 2 }],
    ]);
    // The edge goes from right to left along the top: right of straight ahead the first pair ends it.
    const [right, left] = numbered.map(({ at }) => at);
    expect(inputAt(right.steer)).toBeGreaterThan(0);
    expect(right.travelMm).toBeCloseTo(25 - 0.1 * inputAt(right.steer), 9);
    expect(inputAt(left.steer)).toBeLessThan(0);
    expect(numberedStretches(undefined)).toEqual([]);
  });

  it('leaves out what is cut off from ride height, and has an edge around each hole', () => {
    const cutOff = region(pair(0, (travel) => Math.abs(travel - 20) - 5));
    expect(cutOff.share).toBeCloseTo(75 / 100, 12);
    const hole = region(pair(0, (travel, input) => Math.hypot(travel + 30, input) - 8));
    expect(hole.edges).toHaveLength(2);
    expect(hole.edges[1].map(({ bound }) => bound.kind)).toEqual(['pair']);
    expect(hole.share).toBeGreaterThan(1 - (16 * 16) / WHOLE);
    expect(hole.share).toBeLessThan(1 - (8 * 8 * 2) / WHOLE);
    expect(usableRegion(GRID, [pair(0, () => -1)], inputAt)).toBeUndefined();
  });

  it('ends before poses that are not reached', () => {
    const lockOut: Headroom = { ...pair(0, (travel) => (travel > 25 ? -1 : 1)), bound: { kind: 'lockOut' } };
    expect(region(lockOut).share).toBeCloseTo(80 / 100, 12);
  });
});

describe('the best rectangle', () => {
  it('has its corner where a diagonal edge leaves the largest area', () => {
    // Below the line travel / 40 + input / 30 = 1 in the quarter of bump and outboard.
    const diagonal = pair(0, (travel, input) => 1 - travel / 40 - input / 30);
    const asked = { bump: 40, droop: 60, outboard: 30, inboard: 30 };
    const least = leastHeadroom([diagonal], diagonal.left.length);
    const found = bestRectangle(GRID, least, asked);
    // (60 + t) (30 + i) with i = 30 (1 - t / 40) grows up to t = 10.
    expect([found.droop, found.inboard]).toEqual([60, 30]);
    expect(found.bump).toBeCloseTo(10, 9);
    expect(found.outboard).toBeCloseTo(22.5, 9);
  });
});
