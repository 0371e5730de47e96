import { atPoint, clearanceAt, type Neighbour, outsideCutZones } from '../../clearance/pointClearance.ts';
import { measure } from '../../clearance/query.ts';
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

/** A surface as it is tinted. */
export interface Shade {
  /** Index of the solid. */
  solid: number;
  /** Undefined for a part with nothing near it. */
  sampled: Sampled | undefined;
  /** Least clearance of all samples, with the error of its pair at this pose; undefined where nothing is near. */
  least: { clearanceMm: number; errorMm: number; pair: number } | undefined;
}

/** A neighbour by a pair, with the error of the pair's clearance at this pose. */
type MeasuredNeighbour = Neighbour & { pair: number; errorMm: number };

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
    const found = measure(bodies[index].a, bodies[index].b, aFromB, { limitMm });
    yield undefined;
    if (found.kind === 'beyond') continue;
    const [nearMm, errorMm] =
      found.kind === 'unknown' ? [0, Number.POSITIVE_INFINITY] : [found.distanceMm, found.errorMm];
    const mayOverlap = found.kind !== 'separated';
    const common = { wantedMm: targetMm + allowanceMm, mayOverlap, errorMm, pair: index };
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
          const { errorMm, pair } = neighbours[nearest];
          least = { clearanceMm, errorMm, pair };
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
