import { applyPoint, type Rigid } from '../math/rigid.ts';
import { type Body, isCovered } from './body.ts';
import type { Clearance, ClearanceKind } from './clearance.ts';
import { coincidentPlace } from './coincident.ts';
import { deepestPiece } from './deepestPiece.ts';
import { DepthSearch } from './depth.ts';
import { insideTree } from './inside.ts';
import { SurfaceSearch } from './surfaceSearch.ts';
import { ROUNDING } from './triangleDistance.ts';
import type { Trim } from './trim.ts';

export interface QueryOptions {
  /** How closely the depth of an overlap is found, mm; 0.05 unless told. */
  depthToleranceMm?: number;
  /** Points and planes that a search for a depth looks at, on either surface; 10,000 unless told. The rest is in the error. */
  mostLooks?: number;
  /** Of either surface what zones leave of it at the pose alone, besides those that were cut away: see `Trim.place`. */
  trimA?: Trim;
  trimB?: Trim;
}

/** Where bodies meet and no depth was found, it is looked for this many times closer before they count as touching. */
const TOUCHING_FINER = 50;

const COVERED =
  'the zone of intended contact covers all of one part, so that nothing of it is left to measure';

/**
 * Clearance of two bodies at one pose after another. `run` fills the fields; nothing is allocated unless the bodies
 * meet. What was found at the last pose is tried first at the next one, and what was left aside is looked at again only
 * where the bodies have moved enough; that changes the time a search takes, never its answer.
 */
export class PairQuery {
  kind: ClearanceKind = 'beyond';
  /** Signed clearance, mm, as in `Clearance`; 0 for touching, +Infinity for beyond, NaN for unknown. */
  distanceMm = Number.POSITIVE_INFINITY;
  /**
   * Error bound of `distanceMm`: both chord errors, both zone cuts, rounding, and for an overlap what its depth was
   * left open by. NaN for beyond and unknown; Infinity where an open mesh hides how deep an overlap is.
   */
  errorMm = Number.NaN;
  /** The same without what a depth was left open by: the true clearance is at most `distanceMm` and this. */
  surfaceErrorMm = Number.NaN;
  /** x y z in the frame of A, as in `Clearance`; NaN for beyond and unknown. */
  readonly pointA = new Float64Array(3);
  readonly pointB = new Float64Array(3);
  /** Why, where `kind` is unknown. */
  reason = '';
  private limitMm = Number.POSITIVE_INFINITY;
  /** How far the surfaces were searched. */
  private searchedMm = Number.POSITIVE_INFINITY;
  private readonly a: Body;
  private readonly b: Body;
  private readonly depthToleranceMm: number;
  private readonly search: SurfaceSearch;
  private readonly aInB: DepthSearch;
  private readonly bInA: DepthSearch;
  private readonly bFromA = new Float64Array(12);
  /** Whether the surfaces are whole: where they stay apart, neither body gets inside the other. */
  private readonly uncut: boolean;
  private readonly trimA: Trim | undefined;
  private readonly trimB: Trim | undefined;
  /** Until the search has come this way neither body can have got inside the other, mm. */
  private outsideUntilMm = 0;

  constructor(a: Body, b: Body, options: QueryOptions = {}) {
    const { depthToleranceMm = 0.05, mostLooks, trimA, trimB } = options;
    this.a = a;
    this.b = b;
    this.depthToleranceMm = depthToleranceMm;
    this.trimA = trimA;
    this.trimB = trimB;
    const isTrimmed = trimA !== undefined || trimB !== undefined;
    this.uncut = a.surface === a.whole && b.surface === b.whole && !isTrimmed;
    this.search = new SurfaceSearch(a.surface, b.surface, trimA, trimB);
    this.aInB = new DepthSearch(a.surface, b.whole, mostLooks, trimA);
    this.bInA = new DepthSearch(b.surface, a.whole, mostLooks, trimB);
  }

  /** Forgets earlier poses. */
  reset(): void {
    this.search.reset();
    this.outsideUntilMm = 0;
  }

  /**
   * Measures at one pose. Clearances above `limitMm`, whatever their error, come out as `beyond`; an overlap is found
   * however far apart the surfaces are. Throws a RangeError for a pose or a limit that is no number.
   */
  run(aFromB: Rigid, limitMm: number): void {
    const roundingMm = this.moveTo(aFromB, limitMm);
    const { search } = this;
    if (this.isCovered()) return;
    const inside = this.isInside(aFromB);
    if (inside && this.overlaps(aFromB, roundingMm, this.depthToleranceMm)) return;
    this.searchSurfaces();
    if (search.crossing || search.distanceSq <= roundingMm * roundingMm) this.meet(aFromB, roundingMm);
    else if (!inside || !this.overlapsByPiece(aFromB, roundingMm, this.deepestMm))
      this.part(aFromB, inside, roundingMm);
  }

  /**
   * Measures as `run` does, but of an overlap no more than this: whether a point is found that is deeper by more than
   * `surfaceErrorMm` than `beyondMm`, of `mostLooks` that are looked at on either surface. `distanceMm` then stands for
   * such a point, or for the mere contact; the true clearance is at most that and `surfaceErrorMm`, and may be less by
   * any amount: `errorMm` is Infinity.
   */
  settle(aFromB: Rigid, limitMm: number, beyondMm: number, mostLooks: number): void {
    const roundingMm = this.moveTo(aFromB, limitMm);
    const { search } = this;
    if (this.isCovered()) return;
    this.searchSurfaces();
    const enoughMm = beyondMm + this.surfaceErrorMm;
    if (search.crossing || search.distanceSq <= roundingMm * roundingMm) {
      const isEnough = search.crossing && enoughMm < 0;
      if (!isEnough && this.overlapsBy(Math.max(enoughMm, roundingMm), aFromB, mostLooks)) return;
      this.give('overlapping', search.crossing ? -roundingMm : 0, Number.POSITIVE_INFINITY);
      this.takeMeetingPoints();
      return;
    }
    const inside = this.isInside(aFromB);
    const overlaps =
      inside &&
      (this.overlapsByPiece(aFromB, roundingMm, Number.POSITIVE_INFINITY) ||
        this.overlapsBy(roundingMm, aFromB, mostLooks));
    if (!overlaps) this.part(aFromB, inside, roundingMm);
    else if (-this.distanceMm <= enoughMm) this.overlapsBy(enoughMm, aFromB, mostLooks);
  }

  /** Says which pose is meant; returns what rounding can do to a distance there, mm. Throws as `run` does. */
  private moveTo(aFromB: Rigid, limitMm: number): number {
    let sum = limitMm === Number.POSITIVE_INFINITY ? 0 : limitMm;
    for (let k = 0; k < 12; k++) sum += aFromB[k];
    if (!Number.isFinite(sum) || limitMm < 0)
      throw new RangeError(`a pair cannot be measured at the pose [${aFromB}] up to ${limitMm} mm`);
    this.limitMm = limitMm;
    this.reason = '';
    invertInto(this.bFromA, aFromB);
    const { a, b, search } = this;
    const roundingMm = ROUNDING * (reachIn(aFromB, b) + a.whole.reachMm);
    if (search.isWorn) this.reset();
    search.moveTo(aFromB);
    this.surfaceErrorMm = this.ownErrorMm(roundingMm);
    return roundingMm;
  }

  /** Looks for the nearest pair up to the limit. */
  private searchSurfaces(): void {
    // So that the true surfaces of what is beyond are: a number that its error may take below the limit is given.
    this.searchedMm = this.limitMm + this.surfaceErrorMm;
    this.search.run(this.searchedMm);
  }

  /** Whether a piece of either body is found inside the other. */
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

  /** Tells how far the surfaces are apart, which do not meet as far as they were searched. */
  private part(aFromB: Rigid, inside: boolean, roundingMm: number): void {
    const { search } = this;
    const mayHide = this.whatMayHide(aFromB);
    if (mayHide !== '') {
      this.giveUnknown(mayHide);
      return;
    }
    if (this.uncut && !inside) {
      const apartMm = Math.min(Math.sqrt(search.distanceSq), this.searchedMm);
      this.outsideUntilMm = search.pathMm + apartMm - roundingMm;
    }
    if (search.triangleA < 0) {
      this.give('beyond', Number.POSITIVE_INFINITY, Number.NaN);
    } else {
      this.give('separated', Math.sqrt(search.distanceSq), this.ownErrorMm(roundingMm));
      this.pointA.set(search.pointA);
      this.pointB.set(search.pointB);
    }
  }

  /** The last answer as a value of its own. */
  clearance(): Clearance {
    const { kind, distanceMm, errorMm, limitMm, reason } = this;
    if (kind === 'beyond') return { kind, limitMm };
    if (kind === 'unknown') return { kind, reason };
    const [ax, ay, az] = this.pointA;
    const [bx, by, bz] = this.pointB;
    return { kind, distanceMm, pointA: [ax, ay, az], pointB: [bx, by, bz], errorMm };
  }

  private give(kind: ClearanceKind, distanceMm: number, errorMm: number): void {
    this.kind = kind;
    this.distanceMm = distanceMm;
    this.errorMm = errorMm;
    this.pointA.fill(Number.NaN);
    this.pointB.fill(Number.NaN);
  }

  private giveUnknown(reason: string): void {
    this.give('unknown', Number.NaN, Number.NaN);
    this.reason = reason;
  }

  /** Whether zones leave nothing of a surface; answers `unknown` then. */
  private isCovered(): boolean {
    const { a, b, trimA, trimB } = this;
    const covered = isCovered(a) || isCovered(b) || trimA?.leavesNothing || trimB?.leavesNothing;
    if (covered) this.giveUnknown(COVERED);
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

  /** The surfaces meet: an overlap where one reaches inside the other, touching where not. */
  private meet(aFromB: Rigid, roundingMm: number): void {
    const { a, b, search } = this;
    if (this.overlaps(aFromB, roundingMm, this.depthToleranceMm)) return;
    if (this.overlaps(aFromB, roundingMm, this.depthToleranceMm / TOUCHING_FINER)) return;
    const openMm =
      a.closed && b.closed ? Math.max(this.aInB.boundMm, this.bInA.boundMm) : Number.POSITIVE_INFINITY;
    const errorMm = this.ownErrorMm(roundingMm) + openMm;
    // Where zones were cut away, a volume that is shared inside them is meant to be.
    const shared =
      this.uncut && a.closed && b.closed ? coincidentPlace(a, b, aFromB, this.bFromA) : undefined;
    if (shared !== undefined && shared.depthMm > roundingMm) {
      this.give('overlapping', -shared.depthMm, errorMm + a.surface.radii[0]);
      this.pointA.set(shared.pointA);
      this.pointB.set(shared.pointB);
      return;
    }
    if (search.crossing) this.give('overlapping', -roundingMm, errorMm);
    else this.give('touching', 0, errorMm);
    this.takeMeetingPoints();
  }

  /** Takes the points where the surfaces meet: of many crossings the one that a new search without limit ends at. */
  private takeMeetingPoints(): void {
    const { search } = this;
    if (search.crossing) {
      this.reset();
      search.run(Number.POSITIVE_INFINITY);
    }
    this.pointA.set(search.pointA);
    this.pointB.set(search.pointB);
  }

  /** What the last search for the depth of an overlap shows that none is deeper than. */
  private get deepestMm(): number {
    const { a, b, aInB, bInA } = this;
    return Math.max(b.closed ? aInB.boundMm : 0, a.closed ? bInA.boundMm : 0);
  }

  /**
   * Takes the deepest of the points that stand for the pieces of either surface; false where none is inside the other body.
   * Where surfaces do not meet, these tell an overlap however few looks a search for its depth may take. `deepestMm`: no
   * point is deeper.
   */
  private overlapsByPiece(aFromB: Rigid, roundingMm: number, deepestMm: number): boolean {
    const { a, b, bFromA } = this;
    const inB = b.closed ? deepestPiece(this.piecesA, b, bFromA) : undefined;
    const inA = a.closed ? deepestPiece(this.piecesB, a, aFromB) : undefined;
    const depthMm = Math.max(inB?.depthMm ?? 0, inA?.depthMm ?? 0);
    if (!(depthMm > roundingMm)) return false;
    this.give('overlapping', -depthMm, this.ownErrorMm(roundingMm) + Math.max(0, deepestMm - depthMm));
    if (inA?.depthMm === depthMm) {
      this.pointA.set(inA.nearest);
      this.pointB.set(inA.point);
    } else if (inB !== undefined) {
      this.pointA.set(applyPoint(aFromB, inB.point));
      this.pointB.set(applyPoint(aFromB, inB.nearest));
    }
    return true;
  }

  /** Looks for any point of either surface that is deeper inside the other body than this; false where none is found. */
  private overlapsBy(depthMm: number, aFromB: Rigid, mostLooks: number): boolean {
    const { a, b, aInB, bInA, bFromA } = this;
    if (b.closed && aInB.finds(bFromA, depthMm, mostLooks)) {
      this.give('overlapping', -aInB.depthMm, Number.POSITIVE_INFINITY);
      movePoint(this.pointA, aFromB, aInB.point);
      movePoint(this.pointB, aFromB, aInB.nearest);
      return true;
    }
    if (!a.closed || !bInA.finds(aFromB, depthMm, mostLooks)) return false;
    this.give('overlapping', -bInA.depthMm, Number.POSITIVE_INFINITY);
    this.pointA.set(bInA.nearest);
    this.pointB.set(bInA.point);
    return true;
  }

  /** Looks for the deepest point of either surface inside the other body; false where there is none. */
  private overlaps(aFromB: Rigid, roundingMm: number, toleranceMm: number): boolean {
    const { a, b, aInB, bInA, bFromA } = this;
    if (b.closed) aInB.run(bFromA, toleranceMm, 0);
    const soFarMm = b.closed ? aInB.depthMm : 0;
    if (a.closed) bInA.run(aFromB, toleranceMm, soFarMm);
    const depthMm = a.closed ? bInA.depthMm : soFarMm;
    if (!(depthMm > roundingMm)) return false;
    this.give('overlapping', -depthMm, this.ownErrorMm(roundingMm) + this.deepestMm - depthMm);
    if (a.closed && bInA.depthMm > soFarMm) {
      this.pointA.set(bInA.nearest);
      this.pointB.set(bInA.point);
    } else {
      movePoint(this.pointA, aFromB, aInB.point);
      movePoint(this.pointB, aFromB, aInB.nearest);
    }
    return true;
  }

  /** What of one body may lie unseen inside an open mesh; '' for nothing. */
  private whatMayHide(aFromB: Rigid): string {
    const { a, b } = this;
    if (!a.closed && anyPieceInBox(this.piecesB, a, aFromB))
      return 'the mesh of the first part is open: whether the second lies inside it cannot be told';
    if (!b.closed && anyPieceInBox(this.piecesA, b, this.bFromA))
      return 'the mesh of the second part is open: whether the first lies inside it cannot be told';
    return '';
  }
}

/**
 * Clearance of two bodies at one pose, `aFromB` taking the frame of b's mesh to that of a's. Throws as
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

/** Largest coordinate that a body can have after a move. */
const reachIn = (t: Rigid, body: Body): number =>
  3 * body.whole.reachMm + Math.abs(t[3]) + Math.abs(t[7]) + Math.abs(t[11]);

/** Whether one of the points of the pieces of a body lies inside `closed`. */
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

/** Whether one of the points of the pieces of a body lies in the box of `open`. */
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
