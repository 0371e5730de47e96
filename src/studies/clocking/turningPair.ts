/**
 * Measures pairs at the turns of one body.
 *
 * Processor time of all 95 pairs of the trials special (stoneyholt) that depend on a clocking, one thread of a shared
 * machine, so differences of a tenth mean nothing:
 * - zones that turn, cut into a mesh and a tree of its own at each turn, with the depth of every overlap computed
 *   whenever a sign is needed: 27.7 s.
 * - zones left out triangle by triangle (`Trim`), and for an overlap only a check whether a point is deep enough to
 *   settle the sign (`PairQuery.settle`): 14.5 s. Kept.
 * - points that were deep at the nearest turns tried first, and few evaluations over ranges that are halved anyway:
 *   13.1 s. Kept: where a pair fails, hardly any range needs a search.
 * - parts of cut triangles skipped by their boxes, and triangles cut in the axes of the zone: 10.2 s. Kept.
 * - surfaces that zones move over, divided beforehand into triangles of at most 8 or 14 mm, so that fewer evaluations
 *   find as close a depth: 1.3 to 1.9 times the total time. More evaluations (5000 instead of 200) cost 0.5 s.
 * - no search for depth if the surfaces were too far apart at a nearby turn for such a depth: 10.3 s, no gain; a
 *   bolt's tool approaches other parts from the side.
 *
 * Not tried: one bolt of a pattern measured over the circle for all bolts, because the hub's bolts repeat after one
 * spacing and are only measured over that; ranges of 8 degrees at first, because the margin of each whole degree is
 * reported and settles most of its own range.
 */
import { type Body, prepareBody, shrunkZones } from '../../clearance/body.ts';
import type { ClearanceKind } from '../../clearance/clearance.ts';
import { depthAt } from '../../clearance/depth.ts';
import { outsideCutZones } from '../../clearance/pointClearance.ts';
import { PairQuery, type QueryOptions } from '../../clearance/query.ts';
import { Trim } from '../../clearance/trim.ts';
import { distanceOutside } from '../../clearance/zoneCut.ts';
import { applyDirection, applyPoint, compose, invert, type Rigid } from '../../math/rigid.ts';
import { sin } from '../../math/sine.ts';
import type { Vec3 } from '../../math/vec.ts';
import type { Mesh, Zone } from '../../solids/solid.ts';
import { wheelFromClock } from '../../solids/wheelFrame.ts';
import { degToRad } from '../../units/angle.ts';
import type { SpanState } from './spans.ts';

/** A body of the study at the file's clockings, in ride-height vehicle coordinates. */
export interface DrawnBody {
  mesh: Mesh;
  /** Bound on the distance of the true surface from the mesh, mm. */
  chordErrorMm: number;
}

/** Two bodies, one of which turns about the wheel axis. */
export interface TurningPairInput {
  turning: DrawnBody;
  fixed: DrawnBody;
  /**
   * Zones of intended contact at the file's clockings: those that turn with the turning body, and those that do not
   * turn.
   */
  turningZones: readonly Zone[];
  fixedZones: readonly Zone[];
  /** Zones that are round about the wheel axis, which are the same whether they turn or not. */
  roundZones?: readonly Zone[];
  /** Required clearance, allowances included, mm: the margin is the clearance less this. */
  requiredMm: number;
  /** Axes of the wheel in the vehicle: y is the axis of the turns (see `vehicleFromWheelAxis`). */
  vehicleFromWheel: Rigid;
  /** Clearances up to this limit are measured; larger ones are `beyond`, mm. */
  limitMm: number;
}

/** Fast estimate of a pair's margin at an angle. */
export interface MarginEstimate {
  /** Margin found; if the pair fails, the true margin may be any smaller value. */
  marginMm: number;
  state: SpanState;
}

/** Margin of a pair at one turn. */
export interface TurnedMargin {
  kind: ClearanceKind;
  /** +Infinity if beyond the limit, NaN if unknown. */
  marginMm: number;
  /** Error bound of `marginMm`; NaN if that is not a finite number. */
  errorMm: number;
}

/** Bounds of the true margin over all turns that move no point further than a given distance, mm. */
export interface MarginBounds {
  lowerMm: number;
  upperMm: number;
}

/**
 * Tolerance and effort of overlap depths; the reported error includes the rest. An overlap fails at any depth, so
 * these are coarse.
 */
const COARSE: QueryOptions = { depthToleranceMm: 1, maxEvaluations: 200 };

/** The same for surfaces that zones move over, because points near the zones' edges need more evaluations. */
const COARSE_IN_ZONES: QueryOptions = { depthToleranceMm: 0.7, maxEvaluations: 5000 };

/**
 * Evaluations of surface points in the search for one that is deep enough to settle the sign of a margin, over narrow
 * ranges of turns and over wider ones. A wider range that is not settled is halved.
 */
const SIGN_EVALUATIONS = 2000;
const FEW_EVALUATIONS = 40;

/** Largest half width of a narrow range, degrees. */
const NARROW_HALF_DEG = 0.05;

/** Points that were deep at a turn this near are tried first, degrees. */
const NEARBY_DEG = 4;

/** Distance beyond the one that settles the sign, up to which a clearance is searched, mm. */
const SIGN_SEARCH_MM = 1;

/** Tolerance of the edges of zones that move relative to a body, mm, as in a sweep. */
const ZONE_MM = 0.01;

/** For zones that are shrunk or enlarged, tolerance of their edges as a share of the change. */
const ZONE_SHARE = 0.03;

/**
 * Measures a pair at turns of its turning body. Turns are in degrees of clocking, 0 at the file's clocking, positive
 * toward the rear. Zones that turn are cut out of the fixed body at each turn, and zones that do not turn are cut out
 * of the turning body.
 */
export class TurningPair {
  readonly input: TurningPairInput;
  /** The smaller of both bodies' largest radii about the wheel axis, mm. */
  private readonly reachMm: number;
  /** Largest radius about the wheel axis of a zone that moves relative to a body, mm. */
  private readonly zoneReachMm: number;
  private readonly trimA: Trim | undefined;
  private readonly trimB: Trim | undefined;
  private readonly query: PairQuery;
  private estimateQuery: PairQuery | undefined;
  private readonly a: Body;
  private readonly b: Body;
  /** Distance of a point outside the zones that are cut out of either body once, mm. */
  private readonly outsideOwnA: (x: number, y: number, z: number) => number;
  private readonly outsideOwnB: (x: number, y: number, z: number) => number;
  /** Full measurements, by turn. */
  private readonly measured = new Map<number, Measured>();
  /** Measured overlaps. */
  private readonly overlaps: (Measured & { turnDeg: number })[] = [];
  private readonly wheelFromVehicle: Rigid;

  constructor(input: TurningPairInput) {
    this.input = input;
    const { turning, fixed, turningZones, fixedZones, roundZones: round = [] } = input;
    this.wheelFromVehicle = invert(input.vehicleFromWheel);
    this.reachMm = Math.min(this.reachOf(turning), this.reachOf(fixed));
    const moving = [...turningZones, ...fixedZones];
    this.zoneReachMm = Math.max(0, ...moving.map((zone) => this.reachOfZone(zone)));
    const body = ({ mesh, chordErrorMm }: DrawnBody, own: readonly Zone[]) =>
      prepareBody(mesh, { zones: [...round, ...own], chordErrorMm });
    this.a = body(turning, turningZones);
    this.b = body(fixed, fixedZones);
    this.outsideOwnA = outsideCutZones([...round, ...turningZones], turning.chordErrorMm);
    this.outsideOwnB = outsideCutZones([...round, ...fixedZones], fixed.chordErrorMm);
    this.trimA = fixedZones.length > 0 ? new Trim(this.a.surface) : undefined;
    this.trimB = turningZones.length > 0 ? new Trim(this.b.surface) : undefined;
    this.query = new PairQuery(this.a, this.b, {
      ...(this.trimA || this.trimB ? COARSE_IN_ZONES : COARSE),
      trimA: this.trimA,
      trimB: this.trimB,
    });
  }

  /** The margin at a turn. */
  at(turnDeg: number): TurnedMargin {
    return marginOf(this.measuredAt(turnDeg), this.input.requiredMm);
  }

  /** Fast estimate of the margin at a turn. Does not affect later measurements. */
  estimate(turnDeg: number): MarginEstimate {
    const { requiredMm, limitMm } = this.input;
    const vehicleFromTurned = this.vehicleFromTurned(turnDeg);
    this.place(vehicleFromTurned, 0);
    // A separate query: where surfaces cross, the contact point found depends on earlier measurements, and estimates
    // must not affect the proof.
    this.estimateQuery ??= new PairQuery(this.a, this.b, { trimA: this.trimA, trimB: this.trimB });
    this.estimateQuery.runUntilDeeper(invert(vehicleFromTurned), limitMm, -requiredMm, FEW_EVALUATIONS);
    const { kind, distanceMm } = this.estimateQuery;
    if (kind === 'unknown') return { marginMm: Number.NaN, state: 'unsettled' };
    const marginMm = distanceMm - requiredMm;
    return { marginMm, state: marginMm >= 0 && kind !== 'overlapping' ? 'clears' : 'fails' };
  }

  /**
   * Bounds of the margin over all turns within `halfDeg` of one, as far as needed for its sign. For the lower bound
   * the zones are shrunk by the motion of their points, for the upper bound they are enlarged: a point that is
   * outside a zone at any of the turns is outside the shrunk zone at this turn, and a point outside the enlarged zone
   * stays outside the zone. A bound is skipped if the measurement at this turn shows that it would settle nothing.
   */
  bounds(turnDeg: number, halfDeg: number): MarginBounds {
    const moveMm = moveAtMm(this.reachMm, halfDeg);
    const zoneMoveMm = moveAtMm(this.zoneReachMm, halfDeg);
    const known = this.upperFromOverlaps(turnDeg, moveMm, zoneMoveMm);
    if (known < 0) return { ...OPEN, upperMm: known };
    const evaluations = halfDeg > NARROW_HALF_DEG ? FEW_EVALUATIONS : SIGN_EVALUATIONS;
    const settled = (growMm: number) => this.settledAt(turnDeg, moveMm, growMm, evaluations);
    const at = settled(0);
    const { lowerMm, upperMm } = this.boundsOf(at, moveMm);
    if (zoneMoveMm === 0) return { lowerMm, upperMm };
    if (lowerMm >= 0) return { ...OPEN, lowerMm: this.boundsOf(settled(-zoneMoveMm), moveMm).lowerMm };
    if (upperMm >= 0) return OPEN;
    if (this.isOutsideZones(at, turnDeg, zoneMoveMm)) return { ...OPEN, upperMm };
    return { ...OPEN, upperMm: this.boundsOf(settled(zoneMoveMm), moveMm).upperMm };
  }

  /** Measures the pair at a turn, including the depth of an overlap. */
  private measuredAt(turnDeg: number): Measured {
    const known = this.measured.get(turnDeg);
    if (known !== undefined) return known;
    const vehicleFromTurned = this.vehicleFromTurned(turnDeg);
    this.place(vehicleFromTurned, 0);
    this.query.run(invert(vehicleFromTurned), this.input.limitMm);
    const measured = measuredBy(this.query, this.input.limitMm);
    this.measured.set(turnDeg, measured);
    this.recordOverlap(measured, turnDeg);
    return measured;
  }

  private recordOverlap(measured: Measured, turnDeg: number): void {
    if (measured.kind === 'overlapping') this.overlaps.push({ ...measured, turnDeg });
  }

  /**
   * Upper bound of the margin over turns near one, from the points that were deep at the nearest turns and usually
   * are deep here too. Infinity if they give no bound.
   */
  private upperFromOverlaps(turnDeg: number, moveMm: number, zoneMoveMm: number): number {
    const { a, b, overlaps } = this;
    const { turningZones, fixedZones, requiredMm } = this.input;
    const distance = ({ turnDeg: other }: { turnDeg: number }) => Math.abs(turnDeg - other);
    const near = overlaps
      .filter((one) => distance(one) <= NEARBY_DEG)
      .sort((one, other) => distance(one) - distance(other));
    const vehicleFromTurned = this.vehicleFromTurned(turnDeg);
    const turnedFromVehicle = invert(vehicleFromTurned);
    let least = Number.POSITIVE_INFINITY;
    for (const { turnDeg: otherDeg, pointA, pointB, surfaceErrorMm } of near.slice(0, 2)) {
      const inVehicle = applyPoint(vehicleFromTurned, pointA);
      const onFixed = applyPoint(this.vehicleFromTurned(otherDeg), pointB);
      const inTurned = applyPoint(turnedFromVehicle, onFixed);
      // The nearest point on the other body's surface may be in a zone.
      const isLeftA =
        this.outsideOwnA(...pointA) >= -a.cutErrorMm &&
        distanceOutside(fixedZones)(...inVehicle) > zoneMoveMm;
      const isLeftB =
        this.outsideOwnB(...onFixed) >= -b.cutErrorMm &&
        distanceOutside(turningZones)(...inTurned) > zoneMoveMm;
      const deepMm = Math.max(
        b.closed && isLeftA ? depthAt(b.whole, ...inVehicle) : 0,
        a.closed && isLeftB ? depthAt(a.whole, ...inTurned) : 0,
      );
      if (deepMm > 0) least = Math.min(least, surfaceErrorMm + moveMm - deepMm - requiredMm);
      if (least < 0) break;
    }
    return least;
  }

  /**
   * Measures the pair at a turn with zones enlarged by `growMm`, up to a number of evaluations, as far as needed for
   * the margin's sign if the margin changes by up to `moveMm`.
   */
  private settledAt(turnDeg: number, moveMm: number, growMm: number, evaluations: number): Measured {
    const { query } = this;
    const { requiredMm, limitMm } = this.input;
    const measured = growMm === 0 ? this.measured.get(turnDeg) : undefined;
    if (
      measured !== undefined &&
      !(measured.kind === 'overlapping' && this.boundsOf(measured, moveMm).upperMm >= 0)
    )
      return measured;
    const vehicleFromTurned = this.vehicleFromTurned(turnDeg);
    this.place(vehicleFromTurned, growMm);
    const searchMm = Math.min(limitMm, requiredMm + moveMm + SIGN_SEARCH_MM);
    query.runUntilDeeper(invert(vehicleFromTurned), searchMm, moveMm - requiredMm, evaluations);
    const settled = measuredBy(query, searchMm);
    if (growMm >= 0) this.recordOverlap(settled, turnDeg);
    return settled;
  }

  /** Places the zones that move relative to a body, enlarged by `growMm`. */
  private place(vehicleFromTurned: Rigid, growMm: number): void {
    const { turning, fixed, turningZones, fixedZones } = this.input;
    const toleranceMm = Math.max(ZONE_MM, ZONE_SHARE * Math.abs(growMm));
    const placed = (zones: readonly Zone[], move: Rigid, { chordErrorMm }: DrawnBody) =>
      shrunkZones(zones, chordErrorMm - growMm).map((zone) => movedZone(zone, move));
    this.trimA?.place(placed(fixedZones, invert(vehicleFromTurned), turning), toleranceMm);
    this.trimB?.place(placed(turningZones, vehicleFromTurned, fixed), toleranceMm);
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
   * Whether the measured points are so far outside the zones that move relative to a body that no move of the zones
   * affects them.
   */
  private isOutsideZones({ kind, pointA, pointB }: Measured, turnDeg: number, byMm: number): boolean {
    const { turningZones, fixedZones } = this.input;
    if (kind === 'beyond' || kind === 'unknown') return false;
    return (
      distanceOutside(turningZones)(...pointB) > byMm &&
      distanceOutside(fixedZones)(...applyPoint(this.vehicleFromTurned(turnDeg), pointA)) > byMm
    );
  }

  private boundsOf(
    { kind, distanceMm, errorMm, surfaceErrorMm, limitMm }: Measured,
    moveMm: number,
  ): MarginBounds {
    const { requiredMm } = this.input;
    if (kind === 'beyond')
      return { lowerMm: limitMm - requiredMm - moveMm, upperMm: Number.POSITIVE_INFINITY };
    if (kind === 'unknown') return OPEN;
    return {
      lowerMm: distanceMm - errorMm - moveMm - requiredMm,
      upperMm: distanceMm + surfaceErrorMm + moveMm - requiredMm,
    };
  }
}

/** The margin of a measured pair: its clearance less `requiredMm`. */
export function marginOf(
  { kind, distanceMm, errorMm }: Pick<PairQuery, 'kind' | 'distanceMm' | 'errorMm'>,
  requiredMm: number,
): TurnedMargin {
  const isNumber = kind !== 'beyond' && kind !== 'unknown';
  return {
    kind,
    marginMm: kind === 'unknown' ? Number.NaN : distanceMm - requiredMm,
    errorMm: isNumber ? errorMm : Number.NaN,
  };
}

/** Bounds without information. */
export const OPEN: MarginBounds = { lowerMm: Number.NEGATIVE_INFINITY, upperMm: Number.POSITIVE_INFINITY };

/** A measurement of a pair at a turn; points in the frame of the turning body. */
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

/** Largest motion of a point within `radiusMm` of the wheel axis in a turn, mm. */
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
