import { type Body, drawnIn, prepareBody } from '../../clearance/body.ts';
import type { ClearanceKind } from '../../clearance/clearance.ts';
import { PairQuery } from '../../clearance/query.ts';
import { outsideOf } from '../../clearance/zoneCut.ts';
import { applyDirection, applyPoint, compose, invert, type Rigid } from '../../math/rigid.ts';
import { sin } from '../../math/sine.ts';
import type { Vec3 } from '../../math/vec.ts';
import type { Mesh, Zone } from '../../solids/solid.ts';
import { wheelFromClock } from '../../solids/wheelFrame.ts';
import { degToRad } from '../../units/angle.ts';

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
  /** Places on the two bodies as they stand at that turn, vehicle coordinates; undefined where beyond or unknown. */
  places: { turning: Vec3; standing: Vec3 } | undefined;
}

/** Between these two the true margin lies at every turn that moves no point further than was asked, mm. */
export interface MarginBounds {
  lowerMm: number;
  upperMm: number;
}

/** Depth of an overlap is closed in on to this, mm: the error told with it holds the rest. */
const DEPTH_MM = 0.2;

/** Edges of zones that are cut anew at a turn are followed to this, mm: five times coarser than a sweep follows them. */
const ZONE_MM = 0.05;

/**
 * Measures a pair at one turn after another of its turning body. Turns are in degrees of clocking, 0 as drawn, positive
 * toward the rear. Zones that ride are cut out of the standing body anew at each turn, and zones that stand out of the
 * turning one, but only where the whole surfaces are near each other inside one.
 */
export class TurningPair {
  readonly input: TurningPairInput;
  /** One of the two bodies reaches no further from the wheel axis than this, mm. */
  private readonly reachMm: number;
  /** No zone that is cut anew at a turn reaches further from the wheel axis than this, mm. */
  private readonly zoneReachMm: number;
  private readonly a: Body;
  private readonly b: Body;
  private readonly query: PairQuery;
  /** The turn that `query` was last run at. */
  private turnedDeg = Number.NaN;
  private readonly wheelFromVehicle: Rigid;

  constructor(input: TurningPairInput) {
    this.input = input;
    const { turning, standing } = input;
    this.wheelFromVehicle = invert(input.vehicleFromWheel);
    this.reachMm = Math.min(this.reachOf(turning), this.reachOf(standing));
    const recut = [...input.ridingZones, ...input.standingZones];
    this.zoneReachMm = Math.max(0, ...recut.map((zone) => this.reachOfZone(zone)));
    this.a = prepareBody(turning.mesh, {
      zones: input.ridingZones,
      chordErrorMm: turning.chordErrorMm,
    });
    this.b = prepareBody(standing.mesh, {
      zones: input.standingZones,
      chordErrorMm: standing.chordErrorMm,
    });
    this.query = new PairQuery(this.a, this.b, { depthToleranceMm: DEPTH_MM });
  }

  /** The margin at a turn. */
  at(turnDeg: number): TurnedMargin {
    const vehicleFromTurned = this.turnTo(turnDeg);
    if (this.isOutsideZones(this.query, vehicleFromTurned, 0))
      return this.read(this.query, vehicleFromTurned);
    return this.read(this.cutAt(vehicleFromTurned, 0), vehicleFromTurned);
  }

  /**
   * Bounds of the margin over all turns within `halfDeg` of one. For the lower bound the zones are drawn in by what the
   * points in them move, for the upper one they are let out: what is outside a zone at any of the turns is then outside
   * the smaller one at this turn, and what is outside the larger one stays outside the zone.
   */
  bounds(turnDeg: number, halfDeg: number): MarginBounds {
    const moveMm = moveAtMm(this.reachMm, halfDeg);
    const zoneMoveMm = moveAtMm(this.zoneReachMm, halfDeg);
    const vehicleFromTurned = this.turnTo(turnDeg);
    const whole = this.boundsOf(this.query, moveMm);
    if (whole.lowerMm >= 0 || this.isOutsideZones(this.query, vehicleFromTurned, zoneMoveMm)) return whole;
    const lowerMm = this.boundsOf(this.cutAt(vehicleFromTurned, -zoneMoveMm), moveMm).lowerMm;
    if (lowerMm >= 0) return { lowerMm, upperMm: Number.POSITIVE_INFINITY };
    return { lowerMm, upperMm: this.boundsOf(this.cutAt(vehicleFromTurned, zoneMoveMm), moveMm).upperMm };
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

  /** Measures the whole surfaces at a turn, unless they were just measured there. */
  private turnTo(turnDeg: number): Rigid {
    const vehicleFromTurned = this.vehicleFromTurned(turnDeg);
    if (turnDeg !== this.turnedDeg) this.run(this.query, vehicleFromTurned);
    this.turnedDeg = turnDeg;
    return vehicleFromTurned;
  }

  private run(query: PairQuery, vehicleFromTurned: Rigid): void {
    query.run(invert(vehicleFromTurned), this.input.limitMm);
  }

  /** The pair with every zone, larger by `growMm`, cut out of both bodies, measured. */
  private cutAt(vehicleFromTurned: Rigid, growMm: number): PairQuery {
    const { turning, standing, ridingZones, standingZones } = this.input;
    const body = (drawn: DrawnBody, own: readonly Zone[], others: readonly Zone[], move: Rigid) =>
      prepareBody(drawn.mesh, {
        zones: [...own, ...drawnIn(others, -growMm).map((zone) => movedZone(zone, move))],
        chordErrorMm: drawn.chordErrorMm,
        zoneToleranceMm: ZONE_MM,
      });
    const a =
      standingZones.length === 0
        ? this.a
        : body(turning, ridingZones, standingZones, invert(vehicleFromTurned));
    const b =
      ridingZones.length === 0 ? this.b : body(standing, standingZones, ridingZones, vehicleFromTurned);
    const query = new PairQuery(a, b, { depthToleranceMm: DEPTH_MM });
    this.run(query, vehicleFromTurned);
    return query;
  }

  /** Whether what was measured is so far outside the zones that were not cut that no cut changes it. */
  private isOutsideZones(query: PairQuery, vehicleFromTurned: Rigid, byMm: number): boolean {
    const { ridingZones, standingZones } = this.input;
    if (ridingZones.length === 0 && standingZones.length === 0) return true;
    if (query.kind === 'beyond') return true;
    if (query.kind === 'unknown') return false;
    const [ax, ay, az] = query.pointA;
    const onTurning = applyPoint(vehicleFromTurned, [ax, ay, az]);
    return (
      outsideOf(ridingZones)(query.pointB[0], query.pointB[1], query.pointB[2]) > byMm &&
      outsideOf(standingZones)(...onTurning) > byMm
    );
  }

  private boundsOf({ kind, distanceMm, errorMm }: PairQuery, moveMm: number): MarginBounds {
    const { wantedMm, limitMm } = this.input;
    if (kind === 'beyond') return { lowerMm: limitMm - wantedMm - moveMm, upperMm: Number.POSITIVE_INFINITY };
    if (kind === 'unknown') return { lowerMm: Number.NEGATIVE_INFINITY, upperMm: Number.POSITIVE_INFINITY };
    return {
      lowerMm: distanceMm - errorMm - moveMm - wantedMm,
      upperMm: distanceMm + errorMm + moveMm - wantedMm,
    };
  }

  private read(query: PairQuery, vehicleFromTurned: Rigid): TurnedMargin {
    const { kind, distanceMm, errorMm, pointA, pointB } = query;
    const marginMm = kind === 'unknown' ? Number.NaN : distanceMm - this.input.wantedMm;
    if (kind === 'beyond' || kind === 'unknown')
      return { kind, marginMm, errorMm: Number.NaN, places: undefined };
    return {
      kind,
      marginMm,
      errorMm,
      places: {
        turning: applyPoint(vehicleFromTurned, [pointA[0], pointA[1], pointA[2]]),
        standing: applyPoint(vehicleFromTurned, [pointB[0], pointB[1], pointB[2]]),
      },
    };
  }
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
