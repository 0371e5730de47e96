import { describe, expect, it } from 'vitest';
import { prepareMechanism } from '../../src/mechanism/mechanism.ts';
import { type PoseCell, PoseCells } from '../../src/proof/proveCells.ts';
import { reachedCells } from '../../src/proof/proveReached.ts';
import { randomCorner } from '../oracles/randomCorner.ts';

/** 8 x 4 cells on each side of straight ahead; ride height is in the fourth travel row. */
const [MIN_MM, MAX_MM] = [-35, 45];
const cells = new PoseCells(prepareMechanism(randomCorner(1)), MIN_MM, MAX_MM);
const at = (side: -1 | 1, travelIndex: number, steerIndex: number): PoseCell =>
  cells.at({ side, travelHalvings: 3, travelIndex, steerHalvings: 2, steerIndex });
const all = ([-1, 1] as const).flatMap((side) =>
  Array.from({ length: 32 }, (_, k) => at(side, Math.floor(k / 4), k % 4)),
);
const without = (...left: PoseCell[]): PoseCell[] => all.filter((cell) => !left.includes(cell));
const reached = (list: readonly PoseCell[]): Set<PoseCell> => reachedCells(list, MIN_MM, MAX_MM);

describe('cells that are reached from ride height', () => {
  it('are all cells of a rectangle without a gap', () => {
    expect(reached(all).size).toBe(all.length);
  });

  it('include all cells around a gap, by travel first or by steer first', () => {
    const list = without(at(1, 6, 2));
    const found = reached(list);
    // Behind the gap in steer, cells are reached by steer first; behind the gap in travel, by travel first. No cell
    // is behind both.
    expect(found.has(at(1, 6, 3))).toBe(true);
    expect(found.has(at(1, 7, 2))).toBe(true);
    expect(found.size).toBe(list.length);
  });

  it('exclude a cell that is behind gaps on both paths', () => {
    const [inSteer, inTravel] = [at(1, 6, 2), at(1, 5, 3)];
    const found = reached(without(inSteer, inTravel));
    expect(found.has(at(1, 6, 3))).toBe(false);
    expect(found.has(at(1, 7, 3))).toBe(true);
    expect(found.has(at(1, 4, 3))).toBe(true);
  });

  it('exclude cells beyond the ends of both travel straight ahead and steer at ride height', () => {
    const list = without(...[-1, 1].map((side) => at(side as -1 | 1, 5, 0)), at(1, 3, 1));
    const found = reached(list);
    expect(found.has(at(1, 6, 0))).toBe(false);
    expect(found.has(at(1, 6, 1))).toBe(false);
    expect(found.has(at(1, 2, 2))).toBe(true);
    // On the other side, steer at ride height is not blocked.
    expect(found.has(at(-1, 6, 1))).toBe(true);
    expect(found.has(at(-1, 6, 0))).toBe(false);
  });

  it('are found among cells of different sizes', () => {
    const large = cells.at({ side: 1, travelHalvings: 2, travelIndex: 3, steerHalvings: 1, steerIndex: 1 });
    const inside = [at(1, 6, 2), at(1, 6, 3), at(1, 7, 2), at(1, 7, 3)];
    expect(reached([...without(...inside), large]).has(large)).toBe(true);
    const half = without(...inside, at(1, 7, 1), at(1, 5, 3));
    expect(reached([...half, large]).has(large)).toBe(false);
  });
});
