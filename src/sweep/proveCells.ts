import { type Mechanism, rackAt } from '../mechanism/linkage.ts';
import { PoseSpan } from './poseSpan.ts';

/** A cell of travel and steer is halved so often at most, in either direction. */
const MOST_HALVINGS = 14;

/** Parts into which either direction of a rectangle can be cut by halves. */
export const SCALE = 2 ** MOST_HALVINGS;

export type Range = readonly [from: number, to: number];

/** Cells kept, of some 20 kB each; beyond that they are made anew when they are asked for again. */
const MOST_KEPT = 6000;

/** A cell of the rectangle of travel and steer, on one side of straight ahead. */
export class PoseCell extends PoseSpan {
  private readonly cells: PoseCells;
  private readonly place: Place;

  constructor(cells: PoseCells, place: Place) {
    const { mechanism, leastTravelMm, mostTravelMm } = cells;
    const travelHalfMm = (mostTravelMm - leastTravelMm) / 2 ** (place.travelHalvings + 1);
    const steerHalf = 1 / 2 ** (place.steerHalvings + 1);
    super(mechanism, {
      travelMm: leastTravelMm + (2 * place.travelIndex + 1) * travelHalfMm,
      travelHalfMm,
      steer: place.side * (2 * place.steerIndex + 1) * steerHalf,
      steerHalf,
    });
    this.cells = cells;
    this.place = place;
  }

  /** The direction in which the mechanism turns further over the cell: halving that, its model leaves out less. */
  get widerAlong(): 'travel' | 'steer' {
    const { mechanism: m } = this.cells;
    const arm = this.travelHalfMm / m.lower.radius;
    const steering = Math.abs(rackAt(m, this.place.side * this.steerHalf)) / m.steeringArm.radiusMm;
    return arm >= steering ? 'travel' : 'steer';
  }

  /** The side of straight ahead. */
  get side(): -1 | 1 {
    return this.place.side;
  }

  /** From where to where in travel, on a scale of `SCALE` from the least to the most: the same number where cells meet. */
  get travelRange(): Range {
    const size = SCALE >> this.place.travelHalvings;
    return [this.place.travelIndex * size, (this.place.travelIndex + 1) * size];
  }

  /** From where to where in steer, on a scale of `SCALE` from straight ahead to lock. */
  get steerRange(): Range {
    const size = SCALE >> this.place.steerHalvings;
    return [this.place.steerIndex * size, (this.place.steerIndex + 1) * size];
  }

  /** How often the rectangle was halved to come to this cell. */
  get halvings(): number {
    return this.place.travelHalvings + this.place.steerHalvings;
  }

  /**
   * Both halves, along travel or along steer; undefined where the cell has been halved often enough, or where it is
   * enclosed and a half of it is not: beside a lock-out the way to the half's middle may be barred.
   */
  halves(along: 'travel' | 'steer'): [PoseCell, PoseCell] | undefined {
    const { place, cells } = this;
    const byTravel = along === 'travel';
    if ((byTravel ? place.travelHalvings : place.steerHalvings) === MOST_HALVINGS) return undefined;
    const half = (which: 0 | 1): PoseCell =>
      cells.at(
        byTravel
          ? {
              ...place,
              travelHalvings: place.travelHalvings + 1,
              travelIndex: 2 * place.travelIndex + which,
            }
          : { ...place, steerHalvings: place.steerHalvings + 1, steerIndex: 2 * place.steerIndex + which },
      );
    const halves: [PoseCell, PoseCell] = [half(0), half(1)];
    const lost = this.carriers !== undefined && halves.some(({ carriers }) => carriers === undefined);
    return lost ? undefined : halves;
  }
}

/** Which cell: the side of straight ahead, how often each direction is halved, and which of the parts it is. */
interface Place {
  side: -1 | 1;
  travelHalvings: number;
  travelIndex: number;
  steerHalvings: number;
  steerIndex: number;
}

/** The rectangle of travel and of steer from lock to lock, cut into cells by halves; cells are shared by all pairs. */
export class PoseCells {
  readonly mechanism: Mechanism;
  readonly leastTravelMm: number;
  readonly mostTravelMm: number;
  private readonly made = new Map<number, PoseCell>();

  constructor(mechanism: Mechanism, leastTravelMm: number, mostTravelMm: number) {
    this.mechanism = mechanism;
    this.leastTravelMm = leastTravelMm;
    this.mostTravelMm = mostTravelMm;
  }

  /** The two cells that make up the rectangle, steered to either side. */
  whole(): PoseCell[] {
    return ([-1, 1] as const).map((side) =>
      this.at({ side, travelHalvings: 0, travelIndex: 0, steerHalvings: 0, steerIndex: 0 }),
    );
  }

  at(place: Place): PoseCell {
    const { side, travelHalvings, travelIndex, steerHalvings, steerIndex } = place;
    const halvings = (travelHalvings * (MOST_HALVINGS + 1) + steerHalvings) * 2 + (side > 0 ? 1 : 0);
    const key = (halvings * SCALE + travelIndex) * SCALE + steerIndex;
    const known = this.made.get(key);
    if (known !== undefined) return known;
    if (this.made.size >= MOST_KEPT) this.made.clear();
    const cell = new PoseCell(this, place);
    this.made.set(key, cell);
    return cell;
  }
}
