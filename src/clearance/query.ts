import { applyPoint, type Rigid } from '../math/rigid.ts';
import { type Body, isCovered } from './body.ts';
import type { Clearance, ClearanceKind } from './clearance.ts';
import { coincidentPoint } from './coincident.ts';
import { deepestPiece } from './deepestPiece.ts';
import { DepthSearch } from './depth.ts';
import { insideTree } from './inside.ts';
import { SurfaceSearch } from './surfaceSearch.ts';
import { ROUNDING } from './triangleDistance.ts';
import type { Trim } from './trim.ts';

export interface QueryOptions {
  /** Tolerance of the depth of an overlap, mm; default 0.05. */
  depthToleranceMm?: number;
  /** Limit of evaluations in a depth search, per surface; default 10,000. The rest is in the error. */
  maxEvaluations?: number;
  /** Additional cuts of each surface by zones at the current pose: see `Trim.place`. */
  trimA?: Trim;
  trimB?: Trim;
}

/** If bodies meet without a depth, the search is repeated this many times finer before it reports touching. */
const TOUCHING_FINER = 50;

const COVERED = 'the zone of intended contact covers one whole part, so its clearance cannot be measured';

/**
 * Clearance of two bodies at successive poses. `run` fills the fields and allocates memory only if the bodies meet.
 * It starts from the result of the last pose, and checks skipped pairs again only if the bodies have moved enough.
 * This changes the time of a search, never its result.
 */
export class PairQuery {
  kind: ClearanceKind = 'beyond';
  /** Signed clearance, mm, as in `Clearance`; 0 for touching, +Infinity for beyond, NaN for unknown. */
  distanceMm = Number.POSITIVE_INFINITY;
  /**
   * Error bound of `distanceMm`: both chord errors, both zone cuts, rounding, and for an overlap the remaining
   * uncertainty of its depth. NaN for beyond and unknown; Infinity if an open mesh hides the depth of an overlap.
   */
  errorMm = Number.NaN;
  /** `errorMm` without the uncertainty of the depth: the true clearance is at most `distanceMm` plus this. */
  surfaceErrorMm = Number.NaN;
  /** x y z in the frame of A, as in `Clearance`; NaN for beyond and unknown. */
  readonly pointA = new Float64Array(3);
  readonly pointB = new Float64Array(3);
  /** The reason if `kind` is unknown. */
  reason = '';
  private limitMm = Number.POSITIVE_INFINITY;
  /** Distance up to which the surfaces were searched. */
  private searchedMm = Number.POSITIVE_INFINITY;
  private readonly a: Body;
  private readonly b: Body;
  private readonly depthToleranceMm: number;
  private readonly search: SurfaceSearch;
  private readonly aInB: DepthSearch;
  private readonly bInA: DepthSearch;
  private readonly bFromA = new Float64Array(12);
  /** Whether both surfaces are uncut. While uncut surfaces stay apart, neither body can get inside the other. */
  private readonly uncut: boolean;
  private readonly trimA: Trim | undefined;
  private readonly trimB: Trim | undefined;
  /** Path of the search up to which neither body can have got inside the other, mm. */
  private outsideUntilMm = 0;

  constructor(a: Body, b: Body, options: QueryOptions = {}) {
    const { depthToleranceMm = 0.05, maxEvaluations, trimA, trimB } = options;
    this.a = a;
    this.b = b;
    this.depthToleranceMm = depthToleranceMm;
    this.trimA = trimA;
    this.trimB = trimB;
    const isTrimmed = trimA !== undefined || trimB !== undefined;
    this.uncut = a.surface === a.whole && b.surface === b.whole && !isTrimmed;
    this.search = new SurfaceSearch(a.surface, b.surface, trimA, trimB);
    this.aInB = new DepthSearch(a.surface, b.whole, maxEvaluations, trimA);
    this.bInA = new DepthSearch(b.surface, a.whole, maxEvaluations, trimB);
  }

  /** Discards the results of earlier poses. */
  reset(): void {
    this.search.reset();
    this.outsideUntilMm = 0;
  }

  /**
   * Measures at one pose. Clearances above `limitMm`, whatever their error, are reported as `beyond`. An overlap is
   * found however far apart the surfaces are. Throws a RangeError for a pose or a limit that is not a number.
   */
  run(aFromB: Rigid, limitMm: number): void {
    const roundingMm = this.moveTo(aFromB, limitMm);
    const { search } = this;
    if (this.isCovered()) return;
    const inside = this.isInside(aFromB);
    if (inside && this.findDeepest(aFromB, roundingMm, this.depthToleranceMm)) return;
    this.searchSurfaces();
    if (search.crossing || search.distanceSq <= roundingMm * roundingMm) this.setMeeting(aFromB, roundingMm);
    else if (!inside || !this.findPieceInside(aFromB, roundingMm, this.deepestMm))
      this.setSeparated(aFromB, inside, roundingMm);
  }

  /**
   * Measures like `run`, but stops a depth search at the first point deeper than `beyondMm` by more than
   * `surfaceErrorMm`, or after `maxEvaluations` evaluations on either surface. `distanceMm` is then the depth at such a
   * point, or at the contact. The true clearance is at most `distanceMm` plus `surfaceErrorMm` and can be less by any
   * amount, so `errorMm` is Infinity.
   */
  runUntilDeeper(aFromB: Rigid, limitMm: number, beyondMm: number, maxEvaluations: number): void {
    const roundingMm = this.moveTo(aFromB, limitMm);
    const { search } = this;
    if (this.isCovered()) return;
    this.searchSurfaces();
    const thresholdMm = beyondMm + this.surfaceErrorMm;
    if (search.crossing || search.distanceSq <= roundingMm * roundingMm) {
      const isDeepEnough = search.crossing && thresholdMm < 0;
      if (!isDeepEnough && this.findDeeper(Math.max(thresholdMm, roundingMm), aFromB, maxEvaluations)) return;
      this.setResult('overlapping', search.crossing ? -roundingMm : 0, Number.POSITIVE_INFINITY);
      this.setContactPoints();
      return;
    }
    const inside = this.isInside(aFromB);
    const overlaps =
      inside &&
      (this.findPieceInside(aFromB, roundingMm, Number.POSITIVE_INFINITY) ||
        this.findDeeper(roundingMm, aFromB, maxEvaluations));
    if (!overlaps) this.setSeparated(aFromB, inside, roundingMm);
    else if (-this.distanceMm <= thresholdMm) this.findDeeper(thresholdMm, aFromB, maxEvaluations);
  }

  /** Sets the pose. Returns the greatest rounding of a distance there, mm. Throws as `run` does. */
  private moveTo(aFromB: Rigid, limitMm: number): number {
    let sum = limitMm === Number.POSITIVE_INFINITY ? 0 : limitMm;
    for (let k = 0; k < 12; k++) sum += aFromB[k];
    if (!Number.isFinite(sum) || limitMm < 0)
      throw new RangeError(
        `a pair cannot be measured at the pose [${aFromB}] up to ${limitMm} mm: the pose must be finite and the limit 0 or more`,
      );
    this.limitMm = limitMm;
    this.reason = '';
    invertInto(this.bFromA, aFromB);
    const { a, b, search } = this;
    const roundingMm = ROUNDING * (reachIn(aFromB, b) + a.whole.reachMm);
    if (search.needsReset) this.reset();
    search.moveTo(aFromB);
    this.surfaceErrorMm = this.ownErrorMm(roundingMm);
    return roundingMm;
  }

  /** Searches for the nearest pair up to the limit. */
  private searchSurfaces(): void {
    // `beyond` must hold for the true surfaces, so the search distance includes the error.
    this.searchedMm = this.limitMm + this.surfaceErrorMm;
    this.search.run(this.searchedMm);
  }

  /** Whether a piece of either body is inside the other. */
  private isInside(aFromB: Rigid): boolean {
    const { a, b, search } = this;
    const isOutside = search.pathMm < this.outsideUntilMm;
    this.outsideUntilMm = 0;
    return (
      !isOutside &&
      ((b.closed && anyPieceInside(this.piecesA, b, this.bFromA)) ||
        (a.closed && anyPieceInside(this.piecesB, a, aFromB)))
    );
  }

  /** Sets the result for surfaces that do not meet within the searched distance. */
  private setSeparated(aFromB: Rigid, inside: boolean, roundingMm: number): void {
    const { search } = this;
    const hidden = this.hiddenReason(aFromB);
    if (hidden !== '') {
      this.setUnknown(hidden);
      return;
    }
    if (this.uncut && !inside) {
      const apartMm = Math.min(Math.sqrt(search.distanceSq), this.searchedMm);
      this.outsideUntilMm = search.pathMm + apartMm - roundingMm;
    }
    if (search.triangleA < 0) {
      this.setResult('beyond', Number.POSITIVE_INFINITY, Number.NaN);
    } else {
      this.setResult('separated', Math.sqrt(search.distanceSq), this.ownErrorMm(roundingMm));
      this.pointA.set(search.pointA);
      this.pointB.set(search.pointB);
    }
  }

  /** A copy of the last result. */
  clearance(): Clearance {
    const { kind, distanceMm, errorMm, limitMm, reason } = this;
    if (kind === 'beyond') return { kind, limitMm };
    if (kind === 'unknown') return { kind, reason };
    const [ax, ay, az] = this.pointA;
    const [bx, by, bz] = this.pointB;
    return { kind, distanceMm, pointA: [ax, ay, az], pointB: [bx, by, bz], errorMm };
  }

  private setResult(kind: ClearanceKind, distanceMm: number, errorMm: number): void {
    this.kind = kind;
    this.distanceMm = distanceMm;
    this.errorMm = errorMm;
    this.pointA.fill(Number.NaN);
    this.pointB.fill(Number.NaN);
  }

  private setUnknown(reason: string): void {
    this.setResult('unknown', Number.NaN, Number.NaN);
    this.reason = reason;
  }

  /** Whether zones cover a whole surface. Sets the result to unknown if so. */
  private isCovered(): boolean {
    const { a, b, trimA, trimB } = this;
    const covered = isCovered(a) || isCovered(b) || trimA?.removesAll || trimB?.removesAll;
    if (covered) this.setUnknown(COVERED);
    return covered === true;
  }

  private ownErrorMm(roundingMm: number): number {
    const { a, b, trimA, trimB } = this;
    const cutMm = a.cutErrorMm + b.cutErrorMm + (trimA?.errorMm ?? 0) + (trimB?.errorMm ?? 0);
    return a.chordErrorMm + b.chordErrorMm + cutMm + roundingMm;
  }

  private get piecesA(): Float64Array {
    return this.trimA?.pieces ?? this.a.pieces;
  }

  private get piecesB(): Float64Array {
    return this.trimB?.pieces ?? this.b.pieces;
  }

  /** Sets the result for surfaces that meet: an overlap if one reaches inside the other, otherwise touching. */
  private setMeeting(aFromB: Rigid, roundingMm: number): void {
    const { a, b, search } = this;
    if (this.findDeepest(aFromB, roundingMm, this.depthToleranceMm)) return;
    if (this.findDeepest(aFromB, roundingMm, this.depthToleranceMm / TOUCHING_FINER)) return;
    const openMm =
      a.closed && b.closed ? Math.max(this.aInB.boundMm, this.bInA.boundMm) : Number.POSITIVE_INFINITY;
    const errorMm = this.ownErrorMm(roundingMm) + openMm;
    // A common volume inside zones that were cut away is intended.
    const shared =
      this.uncut && a.closed && b.closed ? coincidentPoint(a, b, aFromB, this.bFromA) : undefined;
    if (shared !== undefined && shared.depthMm > roundingMm) {
      this.setResult('overlapping', -shared.depthMm, errorMm + a.surface.radii[0]);
      this.pointA.set(shared.pointA);
      this.pointB.set(shared.pointB);
      return;
    }
    if (search.crossing) this.setResult('overlapping', -roundingMm, errorMm);
    else this.setResult('touching', 0, errorMm);
    this.setContactPoints();
  }

  /**
   * Sets the points to where the surfaces meet. Of many crossings, takes the one at which a new search without limit
   * ends.
   */
  private setContactPoints(): void {
    const { search } = this;
    if (search.crossing) {
      this.reset();
      search.run(Number.POSITIVE_INFINITY);
    }
    this.pointA.set(search.pointA);
    this.pointB.set(search.pointB);
  }

  /** Upper bound on the overlap depth, from the last depth search. */
  private get deepestMm(): number {
    const { a, b, aInB, bInA } = this;
    return Math.max(b.closed ? aInB.boundMm : 0, a.closed ? bInA.boundMm : 0);
  }

  /**
   * Sets the result to the deepest piece point of either surface inside the other body; false if there is none. If
   * the surfaces do not meet, these points prove an overlap whatever the limit of evaluations. `deepestMm`: upper
   * bound of the depth.
   */
  private findPieceInside(aFromB: Rigid, roundingMm: number, deepestMm: number): boolean {
    const { a, b, bFromA } = this;
    const inB = b.closed ? deepestPiece(this.piecesA, b, bFromA) : undefined;
    const inA = a.closed ? deepestPiece(this.piecesB, a, aFromB) : undefined;
    const depthMm = Math.max(inB?.depthMm ?? 0, inA?.depthMm ?? 0);
    if (!(depthMm > roundingMm)) return false;
    this.setResult('overlapping', -depthMm, this.ownErrorMm(roundingMm) + Math.max(0, deepestMm - depthMm));
    if (inA?.depthMm === depthMm) {
      this.pointA.set(inA.nearest);
      this.pointB.set(inA.point);
    } else if (inB !== undefined) {
      this.pointA.set(applyPoint(aFromB, inB.point));
      this.pointB.set(applyPoint(aFromB, inB.nearest));
    }
    return true;
  }

  /** Searches for any point of either surface deeper inside the other body than `depthMm`; false if none is found. */
  private findDeeper(depthMm: number, aFromB: Rigid, maxEvaluations: number): boolean {
    const { a, b, aInB, bInA, bFromA } = this;
    if (b.closed && aInB.findsDeeper(bFromA, depthMm, maxEvaluations)) {
      this.setResult('overlapping', -aInB.depthMm, Number.POSITIVE_INFINITY);
      movePoint(this.pointA, aFromB, aInB.point);
      movePoint(this.pointB, aFromB, aInB.nearest);
      return true;
    }
    if (!a.closed || !bInA.findsDeeper(aFromB, depthMm, maxEvaluations)) return false;
    this.setResult('overlapping', -bInA.depthMm, Number.POSITIVE_INFINITY);
    this.pointA.set(bInA.nearest);
    this.pointB.set(bInA.point);
    return true;
  }

  /** Searches for the deepest point of either surface inside the other body; false if there is none. */
  private findDeepest(aFromB: Rigid, roundingMm: number, toleranceMm: number): boolean {
    const { a, b, aInB, bInA, bFromA } = this;
    if (b.closed) aInB.run(bFromA, toleranceMm, 0);
    const soFarMm = b.closed ? aInB.depthMm : 0;
    if (a.closed) bInA.run(aFromB, toleranceMm, soFarMm);
    const depthMm = a.closed ? bInA.depthMm : soFarMm;
    if (!(depthMm > roundingMm)) return false;
    this.setResult('overlapping', -depthMm, this.ownErrorMm(roundingMm) + this.deepestMm - depthMm);
    if (a.closed && bInA.depthMm > soFarMm) {
      this.pointA.set(bInA.nearest);
      this.pointB.set(bInA.point);
    } else {
      movePoint(this.pointA, aFromB, aInB.point);
      movePoint(this.pointB, aFromB, aInB.nearest);
    }
    return true;
  }

  /** Message if one body may be inside the open mesh of the other; '' if not. */
  private hiddenReason(aFromB: Rigid): string {
    const { a, b } = this;
    if (!a.closed && anyPieceInBox(this.piecesB, a, aFromB))
      return 'the mesh of the first part is open, so it is unknown whether the second part is inside it';
    if (!b.closed && anyPieceInBox(this.piecesA, b, this.bFromA))
      return 'the mesh of the second part is open, so it is unknown whether the first part is inside it';
    return '';
  }
}

/**
 * Clearance of two bodies at one pose. `aFromB`: from the frame of b's mesh to the frame of a's. Throws as
 * `PairQuery.run` does.
 */
export function measure(
  a: Body,
  b: Body,
  aFromB: Rigid,
  { limitMm = Number.POSITIVE_INFINITY, ...options }: QueryOptions & { limitMm?: number } = {},
): Clearance {
  const query = new PairQuery(a, b, options);
  query.run(aFromB, limitMm);
  return query.clearance();
}

function invertInto(out: Float64Array, t: Rigid): void {
  for (let r = 0; r < 3; r++) {
    for (let c = 0; c < 3; c++) out[4 * r + c] = t[4 * c + r];
    out[4 * r + 3] = -(t[r] * t[3] + t[4 + r] * t[7] + t[8 + r] * t[11]);
  }
}

function movePoint(out: Float64Array, t: Rigid, p: Float64Array): void {
  for (let r = 0; r < 3; r++)
    out[r] = t[4 * r] * p[0] + t[4 * r + 1] * p[1] + t[4 * r + 2] * p[2] + t[4 * r + 3];
}

/** Largest possible coordinate of a body after a move. */
const reachIn = (t: Rigid, body: Body): number =>
  3 * body.whole.reachMm + Math.abs(t[3]) + Math.abs(t[7]) + Math.abs(t[11]);

/** Whether a piece point of a body is inside `closed`. */
function anyPieceInside(pieces: Float64Array, closed: Body, closedFromBody: Rigid): boolean {
  const t = closedFromBody;
  for (let i = 0; i < pieces.length; i += 3) {
    const x = t[0] * pieces[i] + t[1] * pieces[i + 1] + t[2] * pieces[i + 2] + t[3];
    const y = t[4] * pieces[i] + t[5] * pieces[i + 1] + t[6] * pieces[i + 2] + t[7];
    const z = t[8] * pieces[i] + t[9] * pieces[i + 1] + t[10] * pieces[i + 2] + t[11];
    if (insideTree(closed.whole, x, y, z)) return true;
  }
  return false;
}

/** Whether a piece point of a body is in the box of `open`. */
function anyPieceInBox(pieces: Float64Array, open: Body, openFromBody: Rigid): boolean {
  const { boxes } = open.whole;
  const t = openFromBody;
  for (let i = 0; i < pieces.length; i += 3) {
    const x = t[0] * pieces[i] + t[1] * pieces[i + 1] + t[2] * pieces[i + 2] + t[3];
    const y = t[4] * pieces[i] + t[5] * pieces[i + 1] + t[6] * pieces[i + 2] + t[7];
    const z = t[8] * pieces[i] + t[9] * pieces[i + 1] + t[10] * pieces[i + 2] + t[11];
    if (
      Math.abs(x - boxes[0]) <= boxes[3] &&
      Math.abs(y - boxes[1]) <= boxes[4] &&
      Math.abs(z - boxes[2]) <= boxes[5]
    )
      return true;
  }
  return false;
}
