import { describe, expect, it } from 'vitest';
import { prepareMechanism } from '../../src/mechanism/mechanism.ts';
import { type PoseCell, PoseCells } from '../../src/sweep/proveCells.ts';
import { reachedCells } from '../../src/sweep/proveReached.ts';
import { randomCorner } from '../oracles/randomCorner.ts';

/** 8 x 4 cells to either side of straight ahead; ride height runs through the fourth of travel. */
const [LEAST_MM, MOST_MM] = [-35, 45];
const cells = new PoseCells(prepareMechanism(randomCorner(1)), LEAST_MM, MOST_MM);
const at = (side: -1 | 1, travelIndex: number, steerIndex: number): PoseCell =>
  cells.at({ side, travelHalvings: 3, travelIndex, steerHalvings: 2, steerIndex });
const all = ([-1, 1] as const).flatMap((side) =>
  Array.from({ length: 32 }, (_, k) => at(side, Math.floor(k / 4), k % 4)),
);
const without = (...left: PoseCell[]): PoseCell[] => all.filter((cell) => !left.includes(cell));
const reached = (list: readonly PoseCell[]): Set<PoseCell> => reachedCells(list, LEAST_MM, MOST_MM);

describe('cells that are reached from ride height', () => {
  it('are all of a rectangle without a gap', () => {
    expect(reached(all).size).toBe(all.length);
  });

  it('are those round a gap, by travel first or by steer first', () => {
    const list = without(at(1, 6, 2));
    const found = reached(list);
    // Behind the gap in steer: by steer first. Behind it in travel: by travel first. Behind both is nothing else.
    expect(found.has(at(1, 6, 3))).toBe(true);
    expect(found.has(at(1, 7, 2))).toBe(true);
    expect(found.size).toBe(list.length);
  });

  it('are none behind gaps on both ways', () => {
    const [inSteer, inTravel] = [at(1, 6, 2), at(1, 5, 3)];
    const found = reached(without(inSteer, inTravel));
    expect(found.has(at(1, 6, 3))).toBe(false);
    expect(found.has(at(1, 7, 3))).toBe(true);
    expect(found.has(at(1, 4, 3))).toBe(true);
  });

  it('are none beyond where travel straight ahead and steer at ride height both end', () => {
    const list = without(...[-1, 1].map((side) => at(side as -1 | 1, 5, 0)), at(1, 3, 1));
    const found = reached(list);
    expect(found.has(at(1, 6, 0))).toBe(false);
    expect(found.has(at(1, 6, 1))).toBe(false);
    expect(found.has(at(1, 2, 2))).toBe(true);
    // To the other side steer at ride height runs on.
    expect(found.has(at(-1, 6, 1))).toBe(true);
    expect(found.has(at(-1, 6, 0))).toBe(false);
  });

  it('go by cells of several sizes', () => {
    const large = cells.at({ side: 1, travelHalvings: 2, travelIndex: 3, steerHalvings: 1, steerIndex: 1 });
    const inside = [at(1, 6, 2), at(1, 6, 3), at(1, 7, 2), at(1, 7, 3)];
    expect(reached([...without(...inside), large]).has(large)).toBe(true);
    const half = without(...inside, at(1, 7, 1), at(1, 5, 3));
    expect(reached([...half, large]).has(large)).toBe(false);
  });
});
