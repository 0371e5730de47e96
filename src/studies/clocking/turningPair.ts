/**
 * How pairs are turned, with what was tried. Processor time of all 95 pairs of the trials special (stoneyholt) that
 * follow a clocking, one thread of a machine that others use too, so that a tenth either way means nothing:
 * - zones that ride cut into a mesh and a tree of its own at each turn, the depth of every overlap found wherever a sign is
 *   asked for: 27.7 s.
 * - zones left out triangle by triangle (`Trim`), and of an overlap no more than whether a point is deep enough to settle
 *   the sign (`PairQuery.settle`): 14.5 s. Kept.
 * - the points that were deep at the nearest turns tried first, few looks over stretches that are halved anyway: 13.1 s.
 *   Kept: where a pair fails, hardly any stretch needs a search.
 * - parts of cut triangles left aside by their boxes, triangles cut in the axes of the zone: 10.2 s. Kept.
 * - surfaces that zones move over cut into triangles of at most 8 or 14 mm beforehand, so that fewer looks find as close a
 *   depth: 1.3 to 1.9 times as long in all; more looks (5000, not 200) cost 0.5 s.
 * - no search for depth where the surfaces were so far apart at a turn near by that none can be that deep: 10.3 s, nothing
 *   gained; a bolt's tool comes at what it meets from the side.
 * Not tried: one bolt of a pattern measured over the circle for all, as the hub's bolts are the same again after one spacing
 * and are measured over that only; stretches of 8 degrees at first, as the margin of each whole degree is told and settles
 * most of its own.
 */
import { type Body, drawnIn, prepareBody } from '../../clearance/body.ts';
import type { ClearanceKind } from '../../clearance/clearance.ts';
import { depthAt } from '../../clearance/depth.ts';
import { outsideCutZones } from '../../clearance/pointClearance.ts';
import { PairQuery, type QueryOptions } from '../../clearance/query.ts';
import { Trim } from '../../clearance/trim.ts';
import { outsideOf } from '../../clearance/zoneCut.ts';
import { applyDirection, applyPoint, compose, invert, type Rigid } from '../../math/rigid.ts';
import { sin } from '../../math/sine.ts';
import type { Vec3 } from '../../math/vec.ts';
import type { Mesh, Zone } from '../../solids/solid.ts';
import { wheelFromClock } from '../../solids/wheelFrame.ts';
import { degToRad } from '../../units/angle.ts';
import type { Glance } from './profile.ts';

/** A body of the study as it is drawn, in ride-height vehicle coordinates. */
export interface DrawnBody {
  mesh: Mesh;
  /** How far the true surface is from the mesh at most, mm. */
  chordErrorMm: number;
}

/** Two bodies of which one turns about the wheel axis. */
export interface TurningPairInput {
  turning: DrawnBody;
  standing: DrawnBody;
  /** Where contact is intended, as drawn: zones that turn with the turning body, and zones that stand. */
  ridingZones: readonly Zone[];
  standingZones: readonly Zone[];
  /** The same, of zones that are round about the wheel axis, so that they may be taken to turn or to stand. */
  roundZones?: readonly Zone[];
  /** Least clearance wanted, allowances included, mm: the margin is the clearance less this. */
  wantedMm: number;
  /** Axes of the wheel in the vehicle: y is the axis that is turned about (see `vehicleFromWheelAxis`). */
  vehicleFromWheel: Rigid;
  /** Clearances are measured up to here and `beyond` after, mm. */
  limitMm: number;
}

/** Margin of a pair at one turn. */
export interface TurnedMargin {
  kind: ClearanceKind;
  /** +Infinity where beyond, NaN where it cannot be told. */
  marginMm: number;
  /** The true margin is within this of `marginMm`; NaN where that is no finite number. */
  errorMm: number;
}

/** Between these two the true margin lies at every turn that moves no point further than was asked, mm. */
export interface MarginBounds {
  lowerMm: number;
  upperMm: number;
}

/**
 * How closely the depth of an overlap is found, and how long it is looked for: the error told with it holds the rest. An
 * overlap fails, however deep it is.
 */
const COARSE: QueryOptions = { depthToleranceMm: 1, mostLooks: 200 };

/** The same of surfaces that zones move over: what is near their edges takes more looks. */
const COARSE_IN_ZONES: QueryOptions = { depthToleranceMm: 0.7, mostLooks: 5000 };

/**
 * Points of either surface that are looked at for one deep enough to settle the sign of a margin: over narrow stretches of
 * turns, and over wider ones, which are halved where few do not settle it.
 */
const SIGN_LOOKS = 2000;
const FEW_LOOKS = 40;

/** No stretch is narrow that is wider than this to either side, degrees. */
const NARROW_HALF_DEG = 0.05;

/** What was deep at a turn this near is tried first, degrees. */
const NEARBY_DEG = 4;

/** A clearance is searched for this much further than would settle its sign, mm. */
const SIGN_ROOM_MM = 1;

/** Edges of zones that move against a body are followed to this, mm, as in a sweep. */
const ZONE_MM = 0.01;

/** Where zones are drawn in or let out by more, their edges are followed to this share of that. */
const ZONE_SHARE = 0.03;

/**
 * Measures a pair at one turn after another of its turning body. Turns are in degrees of clocking, 0 as drawn, positive
 * toward the rear. Zones that ride are left out of the standing body where they stand at each turn, and zones that stand
 * out of the turning one.
 */
export class TurningPair {
  readonly input: TurningPairInput;
  /** One of the two bodies reaches no further from the wheel axis than this, mm. */
  private readonly reachMm: number;
  /** No zone that moves against a body reaches further from the wheel axis than this, mm. */
  private readonly zoneReachMm: number;
  private readonly trimA: Trim | undefined;
  private readonly trimB: Trim | undefined;
  private readonly query: PairQuery;
  private glancing: PairQuery | undefined;
  private readonly a: Body;
  private readonly b: Body;
  /** How far a point is outside the zones that are cut out of either body once, mm. */
  private readonly outsideOwnA: (x: number, y: number, z: number) => number;
  private readonly outsideOwnB: (x: number, y: number, z: number) => number;
  /** What was measured, depth and all, by the turn. */
  private readonly measured = new Map<number, Measured>();
  /** What was found to overlap. */
  private readonly overlaps: (Measured & { turnDeg: number })[] = [];
  private readonly wheelFromVehicle: Rigid;

  constructor(input: TurningPairInput) {
    this.input = input;
    const { turning, standing, ridingZones, standingZones, roundZones: round = [] } = input;
    this.wheelFromVehicle = invert(input.vehicleFromWheel);
    this.reachMm = Math.min(this.reachOf(turning), this.reachOf(standing));
    const moving = [...ridingZones, ...standingZones];
    this.zoneReachMm = Math.max(0, ...moving.map((zone) => this.reachOfZone(zone)));
    const body = ({ mesh, chordErrorMm }: DrawnBody, own: readonly Zone[]) =>
      prepareBody(mesh, { zones: [...round, ...own], chordErrorMm });
    this.a = body(turning, ridingZones);
    this.b = body(standing, standingZones);
    this.outsideOwnA = outsideCutZones([...round, ...ridingZones], turning.chordErrorMm);
    this.outsideOwnB = outsideCutZones([...round, ...standingZones], standing.chordErrorMm);
    this.trimA = standingZones.length > 0 ? new Trim(this.a.surface) : undefined;
    this.trimB = ridingZones.length > 0 ? new Trim(this.b.surface) : undefined;
    this.query = new PairQuery(this.a, this.b, {
      ...(this.trimA || this.trimB ? COARSE_IN_ZONES : COARSE),
      trimA: this.trimA,
      trimB: this.trimB,
    });
  }

  /** The margin at a turn. */
  at(turnDeg: number): TurnedMargin {
    return marginOf(this.measuredAt(turnDeg), this.input.wantedMm);
  }

  /** How the pair seems to fare at a turn, found in little time; what is measured later is the same without. */
  glance(turnDeg: number): Glance {
    const { wantedMm, limitMm } = this.input;
    const vehicleFromTurned = this.vehicleFromTurned(turnDeg);
    this.place(vehicleFromTurned, 0);
    // Where surfaces cross, a point of contact depends on what was measured before: of the proof that is to be none of this.
    this.glancing ??= new PairQuery(this.a, this.b, { trimA: this.trimA, trimB: this.trimB });
    this.glancing.settle(invert(vehicleFromTurned), limitMm, -wantedMm, FEW_LOOKS);
    const { kind, distanceMm } = this.glancing;
    if (kind === 'unknown') return { marginMm: Number.NaN, seems: 'unsettled' };
    const marginMm = distanceMm - wantedMm;
    return { marginMm, seems: marginMm >= 0 && kind !== 'overlapping' ? 'clears' : 'fails' };
  }

  /**
   * Bounds of the margin over all turns within `halfDeg` of one, as far as they tell its sign. For the lower bound the
   * zones are drawn in by what the points in them move, for the upper one they are let out: what is outside a zone at any of the turns is then outside
   * the smaller one at this turn, and what is outside the larger one stays outside the zone. Neither is asked for where
   * what is measured at this turn shows that it would settle nothing.
   */
  bounds(turnDeg: number, halfDeg: number): MarginBounds {
    const moveMm = moveAtMm(this.reachMm, halfDeg);
    const zoneMoveMm = moveAtMm(this.zoneReachMm, halfDeg);
    const known = this.upperOfKnown(turnDeg, moveMm, zoneMoveMm);
    if (known < 0) return { ...OPEN, upperMm: known };
    const looks = halfDeg > NARROW_HALF_DEG ? FEW_LOOKS : SIGN_LOOKS;
    const settled = (growMm: number) => this.settledAt(turnDeg, moveMm, growMm, looks);
    const at = settled(0);
    const { lowerMm, upperMm } = this.boundsOf(at, moveMm);
    if (zoneMoveMm === 0) return { lowerMm, upperMm };
    if (lowerMm >= 0) return { ...OPEN, lowerMm: this.boundsOf(settled(-zoneMoveMm), moveMm).lowerMm };
    if (upperMm >= 0) return OPEN;
    if (this.isOutsideZones(at, turnDeg, zoneMoveMm)) return { ...OPEN, upperMm };
    return { ...OPEN, upperMm: this.boundsOf(settled(zoneMoveMm), moveMm).upperMm };
  }

  /** The pair at a turn, depth of an overlap and all. */
  private measuredAt(turnDeg: number): Measured {
    const known = this.measured.get(turnDeg);
    if (known !== undefined) return known;
    const vehicleFromTurned = this.vehicleFromTurned(turnDeg);
    this.place(vehicleFromTurned, 0);
    this.query.run(invert(vehicleFromTurned), this.input.limitMm);
    const measured = measuredBy(this.query, this.input.limitMm);
    this.measured.set(turnDeg, measured);
    this.note(measured, turnDeg);
    return measured;
  }

  private note(measured: Measured, turnDeg: number): void {
    if (measured.kind === 'overlapping') this.overlaps.push({ ...measured, turnDeg });
  }

  /**
   * Upper bound of the margin over the turns near one by the points that were deep at the nearest turns: what was deepest
   * there is deep here, as a rule. Infinity where they tell nothing.
   */
  private upperOfKnown(turnDeg: number, moveMm: number, zoneMoveMm: number): number {
    const { a, b, overlaps } = this;
    const { ridingZones, standingZones, wantedMm } = this.input;
    const away = ({ turnDeg: other }: { turnDeg: number }) => Math.abs(turnDeg - other);
    const near = overlaps
      .filter((one) => away(one) <= NEARBY_DEG)
      .sort((one, other) => away(one) - away(other));
    const vehicleFromTurned = this.vehicleFromTurned(turnDeg);
    const turnedFromVehicle = invert(vehicleFromTurned);
    let least = Number.POSITIVE_INFINITY;
    for (const { turnDeg: thenDeg, pointA, pointB, surfaceErrorMm } of near.slice(0, 2)) {
      const inVehicle = applyPoint(vehicleFromTurned, pointA);
      const onStanding = applyPoint(this.vehicleFromTurned(thenDeg), pointB);
      const inTurned = applyPoint(turnedFromVehicle, onStanding);
      // Of a point in the one body, the nearest of the other's surface may be in a zone.
      const isLeftA =
        this.outsideOwnA(...pointA) >= -a.cutErrorMm && outsideOf(standingZones)(...inVehicle) > zoneMoveMm;
      const isLeftB =
        this.outsideOwnB(...onStanding) >= -b.cutErrorMm && outsideOf(ridingZones)(...inTurned) > zoneMoveMm;
      const deepMm = Math.max(
        b.closed && isLeftA ? depthAt(b.whole, ...inVehicle) : 0,
        a.closed && isLeftB ? depthAt(a.whole, ...inTurned) : 0,
      );
      if (deepMm > 0) least = Math.min(least, surfaceErrorMm + moveMm - deepMm - wantedMm);
      if (least < 0) break;
    }
    return least;
  }

  /**
   * The pair at a turn with zones larger by `growMm`, as far as so many looks tell the sign of the margin where that
   * changes by up to `moveMm`.
   */
  private settledAt(turnDeg: number, moveMm: number, growMm: number, looks: number): Measured {
    const { query } = this;
    const { wantedMm, limitMm } = this.input;
    const measured = growMm === 0 ? this.measured.get(turnDeg) : undefined;
    if (
      measured !== undefined &&
      !(measured.kind === 'overlapping' && this.boundsOf(measured, moveMm).upperMm >= 0)
    )
      return measured;
    const vehicleFromTurned = this.vehicleFromTurned(turnDeg);
    this.place(vehicleFromTurned, growMm);
    const searchMm = Math.min(limitMm, wantedMm + moveMm + SIGN_ROOM_MM);
    query.settle(invert(vehicleFromTurned), searchMm, moveMm - wantedMm, looks);
    const settled = measuredBy(query, searchMm);
    if (growMm >= 0) this.note(settled, turnDeg);
    return settled;
  }

  /** Places the zones that move against a body, larger by `growMm`. */
  private place(vehicleFromTurned: Rigid, growMm: number): void {
    const { turning, standing, ridingZones, standingZones } = this.input;
    const toleranceMm = Math.max(ZONE_MM, ZONE_SHARE * Math.abs(growMm));
    const placed = (zones: readonly Zone[], move: Rigid, { chordErrorMm }: DrawnBody) =>
      drawnIn(zones, chordErrorMm - growMm).map((zone) => movedZone(zone, move));
    this.trimA?.place(placed(standingZones, invert(vehicleFromTurned), turning), toleranceMm);
    this.trimB?.place(placed(ridingZones, vehicleFromTurned, standing), toleranceMm);
  }

  private reachOf({ mesh: { positions }, chordErrorMm }: DrawnBody): number {
    let most = 0;
    for (let i = 0; i < positions.length; i += 3)
      most = Math.max(most, this.radiusOf([positions[i], positions[i + 1], positions[i + 2]]));
    return most + chordErrorMm;
  }

  private reachOfZone(zone: Zone): number {
    const halfMm = zone.shape === 'slab' ? zone.halfThicknessMm : 0;
    return this.radiusOf(zone.centre) + Math.hypot(zone.radiusMm, halfMm);
  }

  private radiusOf(point: Vec3): number {
    const [across, , up] = applyPoint(this.wheelFromVehicle, point);
    return Math.hypot(across, up);
  }

  private vehicleFromTurned(turnDeg: number): Rigid {
    return compose(this.input.vehicleFromWheel, compose(wheelFromClock(turnDeg), this.wheelFromVehicle));
  }

  /** Whether what was measured is so far outside the zones that move against a body that no move of them changes it. */
  private isOutsideZones({ kind, pointA, pointB }: Measured, turnDeg: number, byMm: number): boolean {
    const { ridingZones, standingZones } = this.input;
    if (kind === 'beyond' || kind === 'unknown') return false;
    return (
      outsideOf(ridingZones)(...pointB) > byMm &&
      outsideOf(standingZones)(...applyPoint(this.vehicleFromTurned(turnDeg), pointA)) > byMm
    );
  }

  private boundsOf(
    { kind, distanceMm, errorMm, surfaceErrorMm, limitMm }: Measured,
    moveMm: number,
  ): MarginBounds {
    const { wantedMm } = this.input;
    if (kind === 'beyond') return { lowerMm: limitMm - wantedMm - moveMm, upperMm: Number.POSITIVE_INFINITY };
    if (kind === 'unknown') return OPEN;
    return {
      lowerMm: distanceMm - errorMm - moveMm - wantedMm,
      upperMm: distanceMm + surfaceErrorMm + moveMm - wantedMm,
    };
  }
}

/** The margin of a pair as it was measured: its clearance less `wantedMm`. */
export function marginOf(
  { kind, distanceMm, errorMm }: Pick<PairQuery, 'kind' | 'distanceMm' | 'errorMm'>,
  wantedMm: number,
): TurnedMargin {
  const isNumber = kind !== 'beyond' && kind !== 'unknown';
  return {
    kind,
    marginMm: kind === 'unknown' ? Number.NaN : distanceMm - wantedMm,
    errorMm: isNumber ? errorMm : Number.NaN,
  };
}

/** Bounds that tell nothing. */
export const OPEN: MarginBounds = { lowerMm: Number.NEGATIVE_INFINITY, upperMm: Number.POSITIVE_INFINITY };

/** A pair as it was measured at a turn, points in the frame of the turning body. */
interface Measured extends Pick<PairQuery, 'kind' | 'distanceMm' | 'errorMm' | 'surfaceErrorMm'> {
  limitMm: number;
  pointA: Vec3;
  pointB: Vec3;
}

function measuredBy(query: PairQuery, limitMm: number): Measured {
  const { kind, distanceMm, errorMm, surfaceErrorMm } = query;
  const [[ax, ay, az], [bx, by, bz]] = [query.pointA, query.pointB];
  return {
    kind,
    distanceMm,
    errorMm,
    surfaceErrorMm,
    limitMm,
    pointA: [ax, ay, az],
    pointB: [bx, by, bz],
  };
}

/** The furthest that a point no further than this from the wheel axis moves in a turn of so much, mm. */
function moveAtMm(radiusMm: number, turnDeg: number): number {
  const turn = Math.min(Math.PI, degToRad(Math.abs(turnDeg)));
  return 2 * radiusMm * sin(turn / 2);
}

function movedZone(zone: Zone, move: Rigid): Zone {
  const centre = applyPoint(move, zone.centre);
  return zone.shape === 'sphere'
    ? { ...zone, centre }
    : { ...zone, centre, axis: applyDirection(move, zone.axis) };
}
