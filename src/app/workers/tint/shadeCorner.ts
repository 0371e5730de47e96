import {
  clearanceAt,
  type Neighbour,
  outsideCutZones,
  pointResult,
} from '../../../clearance/pointClearance.ts';
import { PairQuery } from '../../../clearance/query.ts';
import { reportedClearance } from '../../../clearance/reportedClearance.ts';
import { compose, invert } from '../../../math/rigid.ts';
import type { Carriers } from '../../../mechanism/pose.ts';
import type { Zone } from '../../../solids/solid.ts';
import { holdsJointOf } from '../../../sweep/ownBolt.ts';
import type { Setup } from '../../../sweep/setUp.ts';
import type { DrawnMesh } from '../drawing/drawnMesh.ts';
import { refine, type Sampled } from './refine.ts';

/** Surfaces within this distance of another part are tinted, mm: one inch. */
export const SHADED_TO_MM = 25.4;
/** Measured a little further, so that the tint fades to nothing. */
const MARGIN_MM = 4.6;
const REFINE = { leastMm: 1.5, growth: 0.6, mostPoints: 80_000 };
/** The interpolation error is reported over all places with this clearance or less, mm. */
export const NEAR_MM = 5;

/** Least clearance of all samples, and the errors of its pair at this pose. */
export interface LeastFound {
  clearanceMm: number;
  /** Infinity if the pair is unknown, or overlaps without an upper bound on its depth. */
  errorMm: number;
  /** Error without the open part of a depth; NaN if the pair is unknown. */
  surfaceErrorMm: number;
  /** Index of the pair. */
  pair: number;
}

/** A tinted surface. */
export interface Shade {
  /** Index of the solid. */
  solid: number;
  /** Undefined if no other part is near. */
  sampled: Sampled | undefined;
  /** Undefined if no other part is near. */
  least: LeastFound | undefined;
}

/** The other part of a pair, with the error of the pair's clearance at this pose. */
type MeasuredNeighbour = Neighbour & Omit<LeastFound, 'clearanceMm'>;

/** Search limit at samples, mm: a target may be larger than the tinted range. */
const shadeLimitMm = ({ pairs }: Pick<Setup, 'pairs'>): number =>
  pairs.reduce(
    (most, { targetMm, allowanceMm }) => Math.max(most, targetMm + allowanceMm + MARGIN_MM),
    SHADED_TO_MM + MARGIN_MM,
  );

/** The ball of a joint's bolt. Against the part that holds the joint, the bolt is measured without it. */
function ballOf({ solids, design }: Pick<Setup, 'solids' | 'design'>, bolt: number): Zone[] {
  const { partIndex, attachments, chordErrorMm } = solids[bolt];
  const entry = design.corner.parts[partIndex];
  if (entry.kind !== 'joint') return [];
  return [
    { shape: 'sphere', centre: attachments[0].at, radiusMm: entry.ballDiameter / 2 + 2 * chordErrorMm },
  ];
}

/**
 * Measures the surfaces of all solids at a pose, each against the parts of its pairs. Solids with the least clearance come
 * first. A part that turns with the wheel is measured as the body that it sweeps. Yields each finished surface, and
 * undefined at each chance to pause. `drawnOf` returns the drawn mesh of a solid.
 */
export function* shadeCorner(
  setup: Setup,
  carriers: Carriers,
  drawnOf: (solid: number) => DrawnMesh,
): Generator<Shade | undefined, void> {
  const { solids, pairs, bodies } = setup;
  const limitMm = shadeLimitMm(setup);
  const near: { nearMm: number; neighbours: MeasuredNeighbour[] }[] = solids.map(() => ({
    nearMm: Number.POSITIVE_INFINITY,
    neighbours: [],
  }));
  for (const [index, pair] of pairs.entries()) {
    const { a, b, zones, targetMm, allowanceMm } = pair;
    const aFromB = compose(invert(carriers[solids[a].carrier]), carriers[solids[b].carrier]);
    const query = new PairQuery(bodies[index].a, bodies[index].b);
    query.run(aFromB, limitMm);
    yield undefined;
    const { kind, distanceMm, surfaceErrorMm } = query;
    if (kind === 'beyond') continue;
    const isUnknown = kind === 'unknown';
    const nearMm = isUnknown ? 0 : distanceMm;
    const { errorMm } = isUnknown ? { errorMm: Number.POSITIVE_INFINITY } : reportedClearance(query, 0);
    const common = {
      requiredMm: targetMm + allowanceMm,
      mayOverlap: kind !== 'separated',
      errorMm,
      surfaceErrorMm: isUnknown ? Number.NaN : surfaceErrorMm,
      pair: index,
    };
    for (const [own, other, body, neighbourFromThis] of [
      [a, b, bodies[index].b, invert(aFromB)],
      [b, a, bodies[index].a, aFromB],
    ] as const) {
      const seat = holdsJointOf(solids[other], solids[own]) ? ballOf(setup, own) : [];
      const outsideZonesMm = outsideCutZones([...zones, ...seat], solids[own].chordErrorMm);
      near[own].neighbours.push({ ...common, body, neighbourFromThis, outsideZonesMm });
      near[own].nearMm = Math.min(near[own].nearMm, nearMm);
    }
  }
  const order = solids.map((_, i) => i).sort((i, j) => near[i].nearMm - near[j].nearMm || i - j);
  for (const solid of order) {
    const { neighbours } = near[solid];
    if (neighbours.length === 0) {
      yield { solid, sampled: undefined, least: undefined };
      continue;
    }
    let least: Shade['least'];
    const steps = refine(
      drawnOf(solid),
      (x, y, z) => {
        clearanceAt(neighbours, x, y, z, limitMm);
        const { clearanceMm, nearest } = pointResult;
        if (nearest >= 0 && clearanceMm < (least?.clearanceMm ?? Number.POSITIVE_INFINITY)) {
          const { errorMm, surfaceErrorMm, pair } = neighbours[nearest];
          least = { clearanceMm, errorMm, surfaceErrorMm, pair };
        }
        return pointResult;
      },
      NEAR_MM,
      REFINE,
    );
    let step = steps.next();
    while (!step.done) {
      yield undefined;
      step = steps.next();
    }
    yield { solid, sampled: step.value, least };
  }
}
