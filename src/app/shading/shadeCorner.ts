import { atPoint, clearanceAt, type Neighbour, outsideCutZones } from '../../clearance/pointClearance.ts';
import { PairQuery } from '../../clearance/query.ts';
import { reportedClearance } from '../../clearance/reportedClearance.ts';
import { compose, invert } from '../../math/rigid.ts';
import type { Carriers } from '../../mechanism/pose.ts';
import type { Zone } from '../../solids/solid.ts';
import { holdsJointOf } from '../../sweep/ownBolt.ts';
import type { Setup } from '../../sweep/setUp.ts';
import type { DrawnMesh } from '../viewer/drawnMesh.ts';
import { refine, type Sampled } from './refine.ts';

/** Surfaces are tinted as far as this from another part, mm: a whole inch. */
export const SHADED_TO_MM = 25.4;
/** What is tinted is measured a little further than that, so that the tint ends where nothing is left of it. */
const MARGIN_MM = 4.6;
const REFINE = { leastMm: 1.5, growth: 0.6, mostPoints: 80_000 };
/** Where this much or less is left, it is told how far what lies between samples may be off, mm. */
export const NEAR_MM = 5;

/** The least clearance of all samples, and the errors of its pair at this pose. */
export interface LeastFound {
  clearanceMm: number;
  /** Infinity where the pair is unknown, or overlaps and its depth has no upper bound. */
  errorMm: number;
  /** Without what a depth is left open by; NaN where the pair is unknown. */
  surfaceErrorMm: number;
  /** Index of the pair. */
  pair: number;
}

/** A surface as it is tinted. */
export interface Shade {
  /** Index of the solid. */
  solid: number;
  /** Undefined for a part with nothing near it. */
  sampled: Sampled | undefined;
  /** Undefined where nothing is near. */
  least: LeastFound | undefined;
}

/** A neighbour by a pair, with the error of the pair's clearance at this pose. */
type MeasuredNeighbour = Neighbour & Omit<LeastFound, 'clearanceMm'>;

/** How far clearances are measured at samples, mm: a target may be larger than what is tinted. */
const shadeLimitMm = ({ pairs }: Pick<Setup, 'pairs'>): number =>
  pairs.reduce(
    (most, { targetMm, allowanceMm }) => Math.max(most, targetMm + allowanceMm + MARGIN_MM),
    SHADED_TO_MM + MARGIN_MM,
  );

/** The ball of a joint's bolt, in its seat: the bolt is measured without it against what holds the joint. */
function ballOf({ solids, design }: Pick<Setup, 'solids' | 'design'>, bolt: number): Zone[] {
  const { partIndex, attachments, chordErrorMm } = solids[bolt];
  const entry = design.corner.parts[partIndex];
  if (entry.kind !== 'joint') return [];
  return [
    { shape: 'sphere', centre: attachments[0].at, radiusMm: entry.ballDiameter / 2 + 2 * chordErrorMm },
  ];
}

/**
 * Measures the surfaces of all solids at a pose against the parts that each is checked against, those with the least
 * clearance first. What turns with the wheel is measured as the body that it sweeps. Yields undefined wherever it can
 * give way, and each surface when it is done. `drawnOf` makes the mesh of a solid ready to draw.
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
      wantedMm: targetMm + allowanceMm,
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
        const { clearanceMm, nearest } = atPoint;
        if (nearest >= 0 && clearanceMm < (least?.clearanceMm ?? Number.POSITIVE_INFINITY)) {
          const { errorMm, surfaceErrorMm, pair } = neighbours[nearest];
          least = { clearanceMm, errorMm, surfaceErrorMm, pair };
        }
        return atPoint;
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
