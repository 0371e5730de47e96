import { inputAt } from '../mechanism/assemble.ts';
import type { Mechanism } from '../mechanism/mechanism.ts';
import { PoseSpan } from './poseSpan.ts';

/** Largest number of halvings of a cell in either direction. */
const MAX_HALVINGS = 14;

/** Largest number of parts of a rectangle in either direction. */
export const SCALE = 2 ** MAX_HALVINGS;

export type Range = readonly [from: number, to: number];

/** Largest number of cached cells, of some 20 kB each. When it is reached, the cache is cleared. */
const MAX_CACHED = 6000;

/** A cell of the rectangle of travel and steer, on one side of straight ahead. */
export class PoseCell extends PoseSpan {
  private readonly cells: PoseCells;
  readonly address: CellAddress;

  constructor(cells: PoseCells, address: CellAddress) {
    const { mechanism, minTravelMm, maxTravelMm } = cells;
    const travelHalfMm = (maxTravelMm - minTravelMm) / 2 ** (address.travelHalvings + 1);
    const steerHalf = 1 / 2 ** (address.steerHalvings + 1);
    super(mechanism, {
      travelMm: minTravelMm + (2 * address.travelIndex + 1) * travelHalfMm,
      travelHalfMm,
      steer: address.side * (2 * address.steerIndex + 1) * steerHalf,
      steerHalf,
    });
    this.cells = cells;
    this.address = address;
  }

  /**
   * The direction in which the mechanism turns further over the cell; halving that reduces the error of its model
   * more.
   */
  get widerAlong(): 'travel' | 'steer' {
    const { mechanism } = this.cells;
    const { armRadiusMm, inputPerRad } = mechanism.linkage;
    const arm = this.travelHalfMm / armRadiusMm;
    const steering = Math.abs(inputAt(mechanism, this.address.side * this.steerHalf)) / inputPerRad;
    return arm >= steering ? 'travel' : 'steer';
  }

  /** The side of straight ahead. */
  get side(): -1 | 1 {
    return this.address.side;
  }

  /** Range of travel, on a scale of `SCALE` from the smallest to the largest. Adjacent cells share the same number. */
  get travelRange(): Range {
    const size = SCALE >> this.address.travelHalvings;
    return [this.address.travelIndex * size, (this.address.travelIndex + 1) * size];
  }

  /** Range of steer, on a scale of `SCALE` from straight ahead to lock. */
  get steerRange(): Range {
    const size = SCALE >> this.address.steerHalvings;
    return [this.address.steerIndex * size, (this.address.steerIndex + 1) * size];
  }

  /** Number of halvings from the rectangle to this cell. */
  get halvings(): number {
    return this.address.travelHalvings + this.address.steerHalvings;
  }

  /** The cell of the same rectangle at an address. */
  cellAt(address: CellAddress): PoseCell {
    return this.cells.at(address);
  }

  /**
   * Both halves, along travel or along steer. Undefined if the cell cannot be halved any more, or if the cell is
   * enclosed but a half is not: near a lock-out the path to the half's middle may be blocked.
   */
  halves(along: 'travel' | 'steer'): [PoseCell, PoseCell] | undefined {
    const { address, cells } = this;
    const byTravel = along === 'travel';
    if ((byTravel ? address.travelHalvings : address.steerHalvings) === MAX_HALVINGS) return undefined;
    const half = (which: 0 | 1): PoseCell =>
      cells.at(
        byTravel
          ? {
              ...address,
              travelHalvings: address.travelHalvings + 1,
              travelIndex: 2 * address.travelIndex + which,
            }
          : {
              ...address,
              steerHalvings: address.steerHalvings + 1,
              steerIndex: 2 * address.steerIndex + which,
            },
      );
    const halves: [PoseCell, PoseCell] = [half(0), half(1)];
    const lost = this.carriers !== undefined && halves.some(({ carriers }) => carriers === undefined);
    return lost ? undefined : halves;
  }
}

/** Address of a cell: the side of straight ahead, the number of halvings in each direction, and its index in each. */
export interface CellAddress {
  side: -1 | 1;
  travelHalvings: number;
  travelIndex: number;
  steerHalvings: number;
  steerIndex: number;
}

/** The rectangle of travel and steer, divided into cells by halving. All pairs share the cells. */
export class PoseCells {
  readonly mechanism: Mechanism;
  readonly minTravelMm: number;
  readonly maxTravelMm: number;
  private readonly made = new Map<number, PoseCell>();

  constructor(mechanism: Mechanism, minTravelMm: number, maxTravelMm: number) {
    this.mechanism = mechanism;
    this.minTravelMm = minTravelMm;
    this.maxTravelMm = maxTravelMm;
  }

  /** The two cells that make up the rectangle, one on each side of straight ahead. */
  whole(): PoseCell[] {
    return ([-1, 1] as const).map((side) =>
      this.at({ side, travelHalvings: 0, travelIndex: 0, steerHalvings: 0, steerIndex: 0 }),
    );
  }

  at(address: CellAddress): PoseCell {
    const { side, travelHalvings, travelIndex, steerHalvings, steerIndex } = address;
    const halvings = (travelHalvings * (MAX_HALVINGS + 1) + steerHalvings) * 2 + (side > 0 ? 1 : 0);
    const key = (halvings * SCALE + travelIndex) * SCALE + steerIndex;
    const known = this.made.get(key);
    if (known !== undefined) return known;
    if (this.made.size >= MAX_CACHED) this.made.clear();
    const cell = new PoseCell(this, address);
    this.made.set(key, cell);
    return cell;
  }
}
