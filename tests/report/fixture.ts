import { CLEARANCE_KINDS } from '../../src/clearance/clearance.ts';
import type { Carrier } from '../../src/design/schema.ts';
import { findingsOf } from '../../src/findings/findingsOf.ts';
import { doubleWishboneRack } from '../../src/layouts/doubleWishboneRack/layout.ts';
import { applyPoint } from '../../src/math/rigid.ts';
import type { Vec3 } from '../../src/math/vec.ts';
import { alignmentAt } from '../../src/mechanism/alignment.ts';
import { prepareMechanism, solvePose } from '../../src/mechanism/mechanism.ts';
import type { Proof } from '../../src/proof/prove.ts';
import type { ReportInput } from '../../src/report/reportInput.ts';
import type { Mesh, Solid } from '../../src/solids/solid.ts';
import type { MockupStudy } from '../../src/studies/mockup/mockup.ts';
import type { MeasuredLimit } from '../../src/sweep/limit.ts';
import type { Pair } from '../../src/sweep/pair.ts';
import { DEFAULT_SETTINGS, POSE_STATES, type SweepResult } from '../../src/sweep/result.ts';
import { stepsThroughZero } from '../../src/sweep/steps.ts';
import { readDesign } from '../design/readDesign.ts';
import { type CornerSource, cornerSource } from './cornerSource.ts';

const CARRIERS = Object.keys(doubleWishboneRack.carriers);

/** A closed box from corner to corner, twelve triangles outward. */
export function boxMesh(low: Vec3, high: Vec3): Mesh {
  const positions = Float64Array.from(
    Array.from({ length: 8 }, (_, i) => [0, 1, 2].map((k) => ((i >> k) & 1 ? high[k] : low[k]))).flat(),
  );
  /** Two triangles for each face. */
  const triangles = Uint32Array.from([
    0, 2, 3, 0, 3, 1, 4, 5, 7, 4, 7, 6, 0, 1, 5, 0, 5, 4, 2, 6, 7, 2, 7, 3, 0, 4, 6, 0, 6, 2, 1, 3, 7, 1, 7,
    5,
  ]);
  return { positions, triangles };
}

/** Clearance and error of one pair at a step; undefined: unknown. Infinity: beyond the limit. */
export type Measured = { mm: number; errorMm: number } | undefined;

export interface FixtureOptions {
  mockup?: MockupStudy;
  measuringError?: ReportInput['measuringError'];
  source?: CornerSource;
  travelSteps?: number;
  steerSteps?: number;
  /** Clearance of the pairs in `PAIRS`, by (travel, steer) of the left corner. */
  measure?: (pair: number, travelMm: number, steer: number) => Measured;
  reaches?: (travelMm: number, steer: number) => boolean;
  unit?: ReportInput['unit'];
  targetOrigin?: string;
  contacts?: ReportInput['contacts'];
  /** Limits of joints and dampers; none if left out. */
  limits?: readonly MeasuredLimit[];
  /** Zones of the pair of sensor and lower arm; none if left out. */
  zones?: Pair['zones'];
  /** Dimension checks that cover the unchecked pair. */
  coveredBy?: readonly string[];
  /** Proof between the steps; no proof if left out. */
  proof?: (result: SweepResult) => Proof;
}

/** Witness points of each pair, in ride-height coordinates of each part's own carrier. */
const PLACES: readonly [Vec3, Vec3][] = [
  [
    [110.5, 310, 255],
    [75, 420, 340],
  ],
  [
    [-60, 660, 330],
    [-20, 640.25, 300],
  ],
  [
    [-60, 650, 330],
    [0, 480, 350],
  ],
  [
    [5, 640, 205],
    [60, 450, 330],
  ],
];

const SOLIDS: readonly { id: string; carrier: Carrier; kind: Solid['kind'] }[] = [
  { id: 'lowerArm', carrier: 'lowerArm', kind: 'controlArm' },
  { id: 'upperArm', carrier: 'upperArm', kind: 'controlArm' },
  { id: 'tieRod', carrier: 'tieRod', kind: 'tieRod' },
  { id: 'battery', carrier: 'chassis', kind: 'box' },
  { id: 'sensor', carrier: 'upright', kind: 'box' },
];

/** Tie rod and battery, sensor and lower arm (a fit pair here), sensor and battery, lower arm and battery. */
const PAIRS: readonly Omit<Pair, 'targetOrigin'>[] = [
  { a: 2, b: 3, moves: true, zones: [], targetMm: 5, allowanceMm: 0 },
  { a: 4, b: 0, moves: false, zones: [], targetMm: 2, allowanceMm: 0 },
  { a: 4, b: 3, moves: true, zones: [], targetMm: 5, allowanceMm: 1 },
  { a: 0, b: 3, moves: true, zones: [], targetMm: 6.35, allowanceMm: 0 },
];

const clearEverywhere = (): Measured => ({ mm: 20, errorMm: 0.1 });

/** Input of a report with real poses and invented clearances. */
export function reportInput(options: FixtureOptions = {}): ReportInput {
  const { source = cornerSource(), travelSteps = 5, steerSteps = 5 } = options;
  const { measure = clearEverywhere, reaches = () => true, unit = 'mm' } = options;
  const design = readDesign(source);
  const { corner } = design;
  const mechanism = prepareMechanism(corner.suspension);
  const { travel } = corner.suspension;
  const travelMm = stepsThroughZero(-travel.droop, travel.bump, travelSteps);
  const steer = stepsThroughZero(-1, 1, steerSteps);
  const steps = travelSteps * steerSteps;
  const ride = solvePose(mechanism, 0, 0);
  if (ride.kind !== 'solved') throw new Error('the suspension does not reach ride height');

  const result: SweepResult = {
    designHash: design.hash,
    settings: { ...DEFAULT_SETTINGS, travelSteps, steerSteps },
    travelMm,
    steer,
    poseState: new Uint8Array(steps),
    carriers: new Float64Array(steps * CARRIERS.length * 12),
    residualMm: new Float64Array(steps).fill(Number.NaN),
    roadWheelAngleDeg: new Float64Array(steps).fill(Number.NaN),
    pairs: PAIRS.map((pair, index) => ({
      ...pair,
      zones: index === 1 ? (options.zones ?? []) : [],
      targetOrigin: options.targetOrigin ?? 'common practice, no source',
    })),
    unchecked: [
      {
        a: 0,
        b: 2,
        why: 'the file says so: they are bolted together',
        ...(options.coveredBy === undefined ? {} : { coveredBy: options.coveredBy }),
      },
    ],
    state: new Uint8Array(PAIRS.length * steps),
    clearanceMm: new Float64Array(PAIRS.length * steps).fill(Number.NaN),
    errorMm: new Float64Array(PAIRS.length * steps),
    points: new Float64Array(PAIRS.length * steps * 6),
  };
  for (let step = 0; step < steps; step++) {
    const [t, s] = [travelMm[Math.floor(step / steerSteps)], steer[step % steerSteps]];
    const pose = solvePose(mechanism, t, s);
    const solved = pose.kind === 'solved' && reaches(t, s);
    result.poseState[step] = POSE_STATES.indexOf(solved ? 'solved' : 'unreachable');
    if (pose.kind !== 'solved' || !solved) continue;
    CARRIERS.forEach((name, i) => {
      result.carriers.set(pose.carriers[name], (step * CARRIERS.length + i) * 12);
    });
    result.residualMm[step] = pose.residualMm;
    result.roadWheelAngleDeg[step] = alignmentAt(mechanism, pose, {
      radiusMm: 300,
      planeMm: 0,
    }).roadWheelAngleDeg;
    for (const [pair, { a, b, moves }] of PAIRS.entries()) {
      const at = pair * steps + step;
      const measured = measure(pair, t, s);
      const kind =
        measured === undefined
          ? 'unknown'
          : measured.mm === Number.POSITIVE_INFINITY
            ? 'beyond'
            : measured.mm > 0
              ? 'separated'
              : 'overlapping';
      result.state[at] = CLEARANCE_KINDS.indexOf(kind);
      if (measured === undefined) continue;
      result.clearanceMm[at] = measured.mm;
      result.errorMm[at] = measured.errorMm;
      const carrierB = moves ? SOLIDS[b].carrier : SOLIDS[a].carrier;
      result.points.set(applyPoint(pose.carriers[SOLIDS[a].carrier], PLACES[pair][0]), at * 6);
      result.points.set(applyPoint(pose.carriers[carrierB], PLACES[pair][1]), at * 6 + 3);
    }
  }
  const solids = SOLIDS.map(
    ({ id, carrier, kind }, i): Solid => ({
      id,
      label: corner.parts[i].label ?? corner.parts[i].id,
      kind,
      partIndex: i,
      carrier,
      mesh: boxMesh([10 * i, 400, 100], [10 * i + 30, 450, 170]),
      shown: undefined,
      chordErrorMm: 0.0123,
      volumeMm3: 30 * 50 * 70,
      allowanceMm: corner.parts[i].allowance,
      attachments: [],
    }),
  );
  return {
    design,
    solids,
    result,
    findings: findingsOf(result, options.limits ?? [], options.proof?.(result)),
    contacts: options.contacts ?? new Map(),
    alignmentAtRideHeight: alignmentAt(mechanism, ride, { radiusMm: 300, planeMm: 0 }),
    whyUnreachable: (t, s) => (reaches(t, s) ? undefined : 'the tie rod is too short'),
    mockup: options.mockup,
    measuringError: options.measuringError,
    unit,
    version: '1.2.3',
    date: '2031-05-06T07:08:09.000Z',
  };
}
