import { type Body, drawnIn, prepareBody } from '../../clearance/body.ts';
import type { ClearanceKind } from '../../clearance/clearance.ts';
import { PairQuery, type QueryOptions } from '../../clearance/query.ts';
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

/** The same where the sign of a margin hangs on it. */
const FINE: QueryOptions = { depthToleranceMm: 0.2, mostLooks: 2000 };

/** Enough for the whole surfaces of bodies that may overlap inside a zone: those are then cut and measured again. */
const ANY_DEPTH: QueryOptions = { depthToleranceMm: 10, mostLooks: 20 };

/** Edges of zones that are cut anew at a turn are followed to this, mm: five times coarser than a sweep follows them. */
const ZONE_MM = 0.05;

/** Where zones are drawn in or let out by more, their edges are followed to this share of that. */
const ZONE_SHARE = 0.1;

/** Turns that are passed over after the whole surfaces were found to overlap. */
const PASSED_OVER = 12;

/** More than rounding. */
const SEARCH_MARGIN_MM = 0.1;

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
  /** Turns at which the whole surfaces are still to be passed over. */
  private passing = 0;
  /** Measured with the zones cut anew, at the turn where that was last done. */
  private lastCut: { turnDeg: number; measured: Measured } | undefined;
  private readonly wheelFromVehicle: Rigid;
  private readonly hasZones: boolean;

  constructor(input: TurningPairInput) {
    this.input = input;
    const { turning, standing, roundZones: round = [] } = input;
    this.wheelFromVehicle = invert(input.vehicleFromWheel);
    this.reachMm = Math.min(this.reachOf(turning), this.reachOf(standing));
    const recut = [...input.ridingZones, ...input.standingZones];
    this.zoneReachMm = Math.max(0, ...recut.map((zone) => this.reachOfZone(zone)));
    this.a = prepareBody(turning.mesh, {
      zones: [...round, ...input.ridingZones],
      chordErrorMm: turning.chordErrorMm,
    });
    this.b = prepareBody(standing.mesh, {
      zones: [...round, ...input.standingZones],
      chordErrorMm: standing.chordErrorMm,
    });
    this.hasZones = recut.length > 0;
    this.query = new PairQuery(this.a, this.b, this.hasZones ? ANY_DEPTH : COARSE);
  }

  /** The margin at a turn. */
  at(turnDeg: number): TurnedMargin {
    const vehicleFromTurned = this.vehicleFromTurned(turnDeg);
    const whole = this.wholeAt(turnDeg, vehicleFromTurned);
    const isExact =
      whole !== undefined && !this.mayOverlap(whole) && this.isOutsideZones(whole, vehicleFromTurned, 0);
    return marginOf(isExact ? whole : this.cutTo(turnDeg, vehicleFromTurned).query, this.input.wantedMm);
  }

  /**
   * Bounds of the margin over all turns within `halfDeg` of one. For the lower bound the zones are drawn in by what the
   * points in them move, for the upper one they are let out: what is outside a zone at any of the turns is then outside
   * the smaller one at this turn, and what is outside the larger one stays outside the zone. Neither is asked for where
   * what is measured at this turn shows that it would settle nothing.
   */
  bounds(turnDeg: number, halfDeg: number): MarginBounds {
    const moveMm = moveAtMm(this.reachMm, halfDeg);
    const zoneMoveMm = moveAtMm(this.zoneReachMm, halfDeg);
    const vehicleFromTurned = this.vehicleFromTurned(turnDeg);
    const boundsOf = (measured: Measured) => this.settled(measured, vehicleFromTurned, moveMm);
    const whole = this.wholeAt(turnDeg, vehicleFromTurned);
    if (whole !== undefined) {
      if (this.isOutsideZones(whole, vehicleFromTurned, zoneMoveMm))
        return boundsOf({ query: whole, a: this.a, b: this.b });
      const { lowerMm } = this.boundsOf(whole, moveMm);
      if (lowerMm >= 0) return { ...OPEN, lowerMm };
    }
    const cut = this.cutTo(turnDeg, vehicleFromTurned);
    const atTurn = boundsOf(cut);
    if (atTurn.lowerMm >= 0)
      return { ...OPEN, lowerMm: boundsOf(this.cutAt(vehicleFromTurned, -zoneMoveMm)).lowerMm };
    if (atTurn.upperMm >= 0) return OPEN;
    const outside = this.isOutsideZones(cut.query, vehicleFromTurned, zoneMoveMm);
    const letOut = outside ? atTurn : boundsOf(this.cutAt(vehicleFromTurned, zoneMoveMm));
    return { ...OPEN, upperMm: letOut.upperMm };
  }

  /** Bounds about what was measured; where they leave the sign open and bodies overlap, that depth is found more closely. */
  private settled({ query, a, b }: Measured, vehicleFromTurned: Rigid, moveMm: number): MarginBounds {
    const bounds = this.boundsOf(query, moveMm);
    if (query.kind !== 'overlapping' || bounds.upperMm < 0) return bounds;
    return this.boundsOf(this.measured(a, b, vehicleFromTurned, FINE).query, moveMm);
  }

  private measured(a: Body, b: Body, vehicleFromTurned: Rigid, options: QueryOptions): Measured {
    const query = new PairQuery(a, b, options);
    this.run(query, vehicleFromTurned);
    return { query, a, b };
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

  /**
   * The whole surfaces measured at a turn. Undefined where they were found to overlap a little while ago, inside a zone as
   * a rule: what is cut has to be measured then, and says all that is asked.
   */
  private wholeAt(turnDeg: number, vehicleFromTurned: Rigid): PairQuery | undefined {
    if (turnDeg === this.turnedDeg) return this.query;
    if (this.passing > 0) {
      this.passing -= 1;
      return undefined;
    }
    this.run(this.query, vehicleFromTurned);
    this.turnedDeg = turnDeg;
    if (this.mayOverlap(this.query)) this.passing = PASSED_OVER;
    return this.query;
  }

  private mayOverlap({ kind }: PairQuery): boolean {
    return this.hasZones && (kind === 'overlapping' || kind === 'touching');
  }

  private run(query: PairQuery, vehicleFromTurned: Rigid): void {
    query.run(invert(vehicleFromTurned), this.input.limitMm);
  }

  /** The pair with every zone cut out of both bodies, measured. */
  private cutTo(turnDeg: number, vehicleFromTurned: Rigid): Measured {
    if (this.lastCut?.turnDeg !== turnDeg)
      this.lastCut = { turnDeg, measured: this.cutAt(vehicleFromTurned, 0) };
    return this.lastCut.measured;
  }

  /** The pair with every zone, larger by `growMm`, cut out of both bodies, measured. */
  private cutAt(vehicleFromTurned: Rigid, growMm: number): Measured {
    const { turning, standing, ridingZones, standingZones, roundZones: round = [], limitMm } = this.input;
    const zoneToleranceMm = Math.max(ZONE_MM, ZONE_SHARE * Math.abs(growMm));
    // As far as a search goes that is to tell clearances up to the limit, errors included.
    const searchMm =
      limitMm + turning.chordErrorMm + standing.chordErrorMm + 2 * zoneToleranceMm + SEARCH_MARGIN_MM;
    const body = (
      drawn: DrawnBody,
      own: readonly Zone[],
      others: readonly Zone[],
      move: Rigid,
      beside: Body,
    ) =>
      prepareBody(drawn.mesh, {
        zones: [...round, ...own, ...drawnIn(others, -growMm).map((zone) => movedZone(zone, move))],
        chordErrorMm: drawn.chordErrorMm,
        zoneToleranceMm,
        within: { box: widened(beside.box, searchMm), boxFromMesh: invert(move) },
        brief: true,
      });
    const a =
      standingZones.length === 0
        ? this.a
        : body(turning, ridingZones, standingZones, invert(vehicleFromTurned), this.b);
    const b =
      ridingZones.length === 0
        ? this.b
        : body(standing, standingZones, ridingZones, vehicleFromTurned, this.a);
    return this.measured(a, b, vehicleFromTurned, COARSE);
  }

  /** Whether what was measured is so far outside the zones that were not cut that no cut changes it. */
  private isOutsideZones(query: PairQuery, vehicleFromTurned: Rigid, byMm: number): boolean {
    const { ridingZones, standingZones } = this.input;
    if (!this.hasZones || query.kind === 'beyond') return true;
    if (query.kind === 'unknown') return false;
    const [ax, ay, az] = query.pointA;
    const onTurning = applyPoint(vehicleFromTurned, [ax, ay, az]);
    return (
      outsideOf(ridingZones)(query.pointB[0], query.pointB[1], query.pointB[2]) > byMm &&
      outsideOf(standingZones)(...onTurning) > byMm
    );
  }

  private boundsOf({ kind, distanceMm, errorMm, surfaceErrorMm }: PairQuery, moveMm: number): MarginBounds {
    const { wantedMm, limitMm } = this.input;
    if (kind === 'beyond') return { lowerMm: limitMm - wantedMm - moveMm, upperMm: Number.POSITIVE_INFINITY };
    if (kind === 'unknown') return { lowerMm: Number.NEGATIVE_INFINITY, upperMm: Number.POSITIVE_INFINITY };
    return {
      lowerMm: distanceMm - errorMm - moveMm - wantedMm,
      upperMm: distanceMm + surfaceErrorMm + moveMm - wantedMm,
    };
  }
}

/** The margin of a pair as it was just measured: its clearance less `wantedMm`. */
export function marginOf({ kind, distanceMm, errorMm }: PairQuery, wantedMm: number): TurnedMargin {
  const isNumber = kind !== 'beyond' && kind !== 'unknown';
  return {
    kind,
    marginMm: kind === 'unknown' ? Number.NaN : distanceMm - wantedMm,
    errorMm: isNumber ? errorMm : Number.NaN,
  };
}

const OPEN: MarginBounds = { lowerMm: Number.NEGATIVE_INFINITY, upperMm: Number.POSITIVE_INFINITY };

/** A pair as measured, with the bodies that were. */
interface Measured {
  query: PairQuery;
  a: Body;
  b: Body;
}

/** The furthest that a point no further than this from the wheel axis moves in a turn of so much, mm. */
function moveAtMm(radiusMm: number, turnDeg: number): number {
  const turn = Math.min(Math.PI, degToRad(Math.abs(turnDeg)));
  return 2 * radiusMm * sin(turn / 2);
}

/** A box larger by so much on every side: least x y z, greatest x y z. */
const widened = (box: Float64Array, byMm: number): Float64Array =>
  box.map((at, k) => (k < 3 ? at - byMm : at + byMm));

function movedZone(zone: Zone, move: Rigid): Zone {
  const centre = applyPoint(move, zone.centre);
  return zone.shape === 'sphere'
    ? { ...zone, centre }
    : { ...zone, centre, axis: applyDirection(move, zone.axis) };
}
