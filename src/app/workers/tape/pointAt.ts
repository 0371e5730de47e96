import { applyDirection, applyPoint, type Rigid } from '../../../math/rigid.ts';
import { addScaled, dot, sub, type Vec3 } from '../../../math/vec.ts';
import type { Feature } from '../../../solids/features/feature.ts';
import type { ReadBody } from './readBody.ts';

/** A line of sight in vehicle axes. It starts at the eye, or at the section plane if the front is cut away. */
export interface Sight {
  origin: Vec3;
  /** Unit vector. */
  direction: Vec3;
  /** Distance along the line beyond which everything is cut away, mm. */
  reachMm: number;
  /** Pick distance of edges and centres, mm. */
  snapMm: number;
  /** Picks only places of the surface, no features. */
  onlyPlaces: boolean;
}

export interface SightedBody {
  body: ReadBody;
  carrierFromVehicle: Rigid;
  /** Solids behind it are picked first. */
  isGlass: boolean;
}

/** A picked feature, or a picked place of the surface, in the frame of the carrier. */
export type Sighted = { index: number } & ({ feature: Feature } | { at: Vec3 });

/** Edges are equally near if their distances differ by less than this share of the pick distance. */
const ALIKE = 0.1;
/** An edge this little behind the hit surface counts as visible. */
const BEHIND_MM = 1;

/**
 * Picks along a line of sight: the nearest visible edge or centre; if there is none, the face that the line hits; if that
 * is no feature, the place hit. Undefined if the line misses all bodies.
 */
export function pointAt(sight: Sight, bodies: readonly SightedBody[]): Sighted | undefined {
  const rays = bodies.map(({ carrierFromVehicle }) => ({
    origin: applyPoint(carrierFromVehicle, sight.origin),
    direction: applyDirection(carrierFromVehicle, sight.direction),
  }));
  const met = bodies.flatMap(({ body, isGlass }, index) => {
    const hit = body.meet(rays[index].origin, rays[index].direction);
    return hit === undefined || hit.alongMm > sight.reachMm ? [] : [{ ...hit, index, isGlass }];
  });
  met.sort((a, b) => Number(a.isGlass) - Number(b.isGlass) || a.alongMm - b.alongMm);
  const first = met[0];
  // Metal at the cut hides everything behind it, and the cut is no surface of the part.
  const inMetal = met.some(({ fromInside, isGlass }) => fromInside && !isGlass) || first?.fromInside === true;
  const seenToMm = inMetal ? 0 : Math.min(first?.alongMm ?? Number.POSITIVE_INFINITY, sight.reachMm);
  if (!sight.onlyPlaces) {
    const hiddenFromMm = seenToMm + BEHIND_MM + sight.snapMm;
    const line = nearestLine(sight, bodies, rays, first?.isGlass !== false, hiddenFromMm);
    if (line !== undefined) return line;
    if (first?.face !== undefined && !inMetal) return { index: first.index, feature: first.face };
  }
  if (first === undefined || inMetal) return undefined;
  const { origin, direction } = rays[first.index];
  return { index: first.index, at: addScaled(origin, direction, first.alongMm) };
}

function nearestLine(
  { snapMm }: Sight,
  bodies: readonly SightedBody[],
  rays: readonly { origin: Vec3; direction: Vec3 }[],
  glassToo: boolean,
  hiddenFromMm: number,
): Sighted | undefined {
  let best: Sighted | undefined;
  let least = { offMm: snapMm, alongMm: Number.POSITIVE_INFINITY };
  bodies.forEach(({ body, isGlass }, index) => {
    if (isGlass && !glassToo) return;
    const { origin, direction } = rays[index];
    const consider = (feature: Feature, at: { offMm: number; alongMm: number }) => {
      if (at.alongMm < -BEHIND_MM || at.alongMm > hiddenFromMm || at.offMm > least.offMm + ALIKE * snapMm)
        return;
      // If one edge is behind another, the one nearer to the eye is picked.
      if (at.offMm >= least.offMm - ALIKE * snapMm && at.alongMm >= least.alongMm) return;
      if (at.offMm > snapMm) return;
      least = at;
      best = { index, feature };
    };
    for (const feature of body.features) {
      if (feature.kind !== 'edge' && feature.kind !== 'ring') continue;
      if (feature.kind === 'ring')
        consider(feature, offSight(feature.centre, feature.centre, origin, direction));
      for (const line of feature.outline) {
        for (let i = 3; i + 2 < line.length; i += 3) {
          const from: Vec3 = [line[i - 3], line[i - 2], line[i - 1]];
          consider(feature, offSight(from, [line[i], line[i + 1], line[i + 2]], origin, direction));
        }
      }
    }
  });
  return best;
}

/** Distance between a line of sight and a segment, seen along the line, and where along it that is. */
function offSight(from: Vec3, to: Vec3, origin: Vec3, direction: Vec3): { offMm: number; alongMm: number } {
  const start = sub(from, origin);
  const way = sub(to, from);
  const [startAlong, wayAlong] = [dot(start, direction), dot(way, direction)];
  const flatStart = addScaled(start, direction, -startAlong);
  const flatWay = addScaled(way, direction, -wayAlong);
  const long = dot(flatWay, flatWay);
  const t = long > 0 ? Math.max(0, Math.min(1, -dot(flatStart, flatWay) / long)) : 0;
  return { offMm: Math.hypot(...addScaled(flatStart, flatWay, t)), alongMm: startAlong + t * wayAlong };
}
