/**
 * A second, slow method for a pose that shares nothing with the first. The upright is a rigid body with six unknowns.
 * Five rods of fixed length and the height of the wheel centre give six equations, solved by a damped Newton method.
 * There are no arms, circles or branches: it moves from ride height in small steps and so stays on its branch.
 */
import type { Suspension } from '../../src/design/schema.ts';

type Point = readonly [number, number, number];
type Turn = readonly [Point, Point, Point];

export interface OraclePose {
  lowerJoint: Point;
  upperJoint: Point;
  tieRodOuter: Point;
  wheelCentre: Point;
  /** Rows of the upright's rotation from ride height. */
  turn: Turn;
  /** Largest error of the six equations, mm. */
  errorMm: number;
}

const dot = (a: Point, b: Point) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const minus = (a: Point, b: Point): Point => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const plus = (a: Point, b: Point): Point => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
const times = (turn: Turn, p: Point): Point => [dot(turn[0], p), dot(turn[1], p), dot(turn[2], p)];
const crossed = (a: Point, b: Point): Point => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];

/** Rotation by the vector `w` (its length is the angle) by Rodrigues' formula, applied after `turn`. */
function turnedBy(w: Point, turn: Turn): Turn {
  const angle = Math.hypot(...w);
  if (angle === 0) return turn;
  const axis: Point = [w[0] / angle, w[1] / angle, w[2] / angle];
  const columns = [0, 1, 2].map((c): Point => {
    const p: Point = [turn[0][c], turn[1][c], turn[2][c]];
    const across = crossed(axis, p);
    const along = dot(axis, p) * (1 - Math.cos(angle));
    return [0, 1, 2].map(
      (i) => p[i] * Math.cos(angle) + across[i] * Math.sin(angle) + axis[i] * along,
    ) as unknown as Point;
  });
  const row = (r: number): Point => [columns[0][r], columns[1][r], columns[2][r]];
  return [row(0), row(1), row(2)];
}

/** Solves a square system by Gaussian elimination with row pivots; undefined if it is singular. */
export function solveLinear(matrix: number[][], right: number[]): number[] | undefined {
  const a = matrix.map((row, i) => [...row, right[i]]);
  const n = right.length;
  for (let c = 0; c < n; c++) {
    let pivot = c;
    for (let r = c + 1; r < n; r++) if (Math.abs(a[r][c]) > Math.abs(a[pivot][c])) pivot = r;
    if (!(Math.abs(a[pivot][c]) > 0)) return undefined;
    [a[c], a[pivot]] = [a[pivot], a[c]];
    for (let r = c + 1; r < n; r++) {
      const factor = a[r][c] / a[c][c];
      for (let k = c; k <= n; k++) a[r][k] -= factor * a[c][k];
    }
  }
  const x = new Array<number>(n).fill(0);
  for (let r = n - 1; r >= 0; r--) {
    let sum = a[r][n];
    for (let k = r + 1; k < n; k++) sum -= a[r][k] * x[k];
    x[r] = sum / a[r][r];
  }
  return x;
}

interface State {
  /** Position of the wheel centre. */
  centre: Point;
  turn: Turn;
}

function equations(s: Suspension, state: State, travelMm: number, rack: Point) {
  const h = s.hardpoints;
  const placed = (p: Point) => plus(state.centre, times(state.turn, minus(p, h.wheelCentre)));
  const rods: { outer: Point; inner: Point; length: number }[] = [
    [h.lowerJoint, h.lowerArmFront, h.lowerArmFront],
    [h.lowerJoint, h.lowerArmRear, h.lowerArmRear],
    [h.upperJoint, h.upperArmFront, h.upperArmFront],
    [h.upperJoint, h.upperArmRear, h.upperArmRear],
    [h.tieRodOuter, plus(h.tieRodInner, rack), h.tieRodInner],
  ].map(([outer, inner, innerAtRideHeight]) => ({
    outer: placed(outer),
    inner,
    length: Math.hypot(...minus(outer, innerAtRideHeight)),
  }));
  const errors = rods.map(({ outer, inner, length }) => Math.hypot(...minus(outer, inner)) - length);
  errors.push(state.centre[2] - h.wheelCentre[2] - travelMm);
  const slopes = rods.map(({ outer, inner }) => {
    const rod = minus(outer, inner);
    const unit = rod.map((c) => c / Math.hypot(...rod)) as unknown as Point;
    return [...unit, ...crossed(minus(outer, state.centre), unit)];
  });
  slopes.push([0, 0, 1, 0, 0, 0]);
  return { errors, slopes };
}

const worst = (errors: number[]) => Math.max(...errors.map(Math.abs));
const STEPS = 60;
const GOOD_MM = 1e-11;

function converge(s: Suspension, start: State, travelMm: number, rack: Point): State {
  let state = start;
  for (let i = 0; i < STEPS; i++) {
    const { errors, slopes } = equations(s, state, travelMm, rack);
    if (worst(errors) < GOOD_MM) return state;
    const step = solveLinear(
      slopes,
      errors.map((e) => -e),
    );
    if (step === undefined) return state;
    let best = state;
    for (let share = 1; share > 1e-3; share /= 2) {
      const [x, y, z, u, v, w] = step.map((c) => c * share);
      const next = { centre: plus(state.centre, [x, y, z]), turn: turnedBy([u, v, w], state.turn) };
      if (worst(equations(s, next, travelMm, rack).errors) < worst(errors)) {
        best = next;
        break;
      }
    }
    if (best === state) return state;
    state = best;
  }
  return state;
}

/** The pose with the rack displaced by `rack`, reached in `walk` steps, rack first or travel first. */
export function poseByFixedLengths(
  s: Suspension,
  travelMm: number,
  rack: Point,
  { walk = 20, first = 'rack' }: { walk?: number; first?: 'rack' | 'travel' } = {},
): OraclePose {
  let state: State = {
    centre: s.hardpoints.wheelCentre,
    turn: [
      [1, 0, 0],
      [0, 1, 0],
      [0, 0, 1],
    ],
  };
  const shares = Array.from({ length: walk }, (_, i) => (i + 1) / walk);
  const rackTo = (share: number): Point => [rack[0] * share, rack[1] * share, rack[2] * share];
  const path = [
    ...shares.map((share) => (first === 'rack' ? { travel: 0, rack: share } : { travel: share, rack: 0 })),
    ...shares.map((share) => (first === 'rack' ? { travel: share, rack: 1 } : { travel: 1, rack: share })),
  ];
  for (const at of path) state = converge(s, state, at.travel * travelMm, rackTo(at.rack));
  const h = s.hardpoints;
  const placed = (p: Point) => plus(state.centre, times(state.turn, minus(p, h.wheelCentre)));
  return {
    lowerJoint: placed(h.lowerJoint),
    upperJoint: placed(h.upperJoint),
    tieRodOuter: placed(h.tieRodOuter),
    wheelCentre: state.centre,
    turn: state.turn,
    errorMm: worst(equations(s, state, travelMm, rack).errors),
  };
}
