import { addScaled, distance, dot, length, normalize, sub, type Vec3 } from '../../math/vec.ts';
import { chainsOf } from './chains.ts';
import type { Facets } from './facets.ts';
import type { CylinderFeature, EdgeFeature, RingFeature } from './feature.ts';
import { type Piece, piecesOf } from './pieces.ts';
import type { Regions } from './regions.ts';

/** Shorter edges are left out, mm: they are too short to measure from. */
const LEAST_EDGE_MM = 2;
/** Tolerance for a ring to be the end of a cylinder, mm. */
const SAME_MM = 5e-3;
/** Least cosine between parallel directions. */
const PARALLEL_COS = 1 - 1e-5;

type CylinderSide = Pick<CylinderFeature, 'centre' | 'axis' | 'radiusMm' | 'triangles'>;

/**
 * Straight and round edges of a mesh. An edge is straight if two flat faces meet, or a flat face cuts a cylinder along its
 * axis.
 *
 * If a flat face cuts a cylinder square to its axis, corners of the ring are corners of the polygon inscribed in the true
 * circle: they are on it to within their rounding. Any other ring has the error of the mesh, and only full circles are
 * kept: an arc may be a seam of facets that happens to be round.
 */
export function lineFeatures(
  facets: Facets,
  regions: Regions,
  cylinders: readonly CylinderSide[],
  chordErrorMm: number,
  vertexErrorMm: number,
): (EdgeFeature | RingFeature)[] {
  const cylinderAt = new Map<number, CylinderSide>();
  for (const cylinder of cylinders) for (const t of cylinder.triangles) cylinderAt.set(t, cylinder);
  const isFlat = (t: number) => regions.isFacet[regions.of[t]] === 0;
  const { positions: p } = facets.mesh;

  const isStraight = ([from, to]: readonly [Vec3, Vec3], sides: readonly [number, number]): boolean => {
    if (!sides.some(isFlat)) return false;
    const direction = normalize(sub(to, from));
    return sides.every((t) => {
      const axis = cylinderAt.get(t)?.axis;
      return isFlat(t) || (axis !== undefined && Math.abs(dot(axis, direction)) > PARALLEL_COS);
    });
  };
  const isInscribed = ({ ring }: RingPiece, sides: readonly [number, number]): boolean =>
    sides.some((t, k) => {
      const cylinder = cylinderAt.get(t);
      const other = sides[1 - k];
      return cylinder !== undefined && isFlat(other) && isEndOf(ring, cylinder, normalAt(facets, other));
    });

  return chainsOf(facets, sharpCorners(facets, regions)).flatMap(({ vertices, beside, closed }) => {
    const points = vertices.map((v): Vec3 => [p[3 * v], p[3 * v + 1], p[3 * v + 2]]);
    return piecesOf(points, closed).flatMap((piece): (EdgeFeature | RingFeature)[] => {
      if (piece.kind === 'straight') {
        const sides = beside[points.indexOf(piece.points[0])];
        if (distance(...piece.points) < LEAST_EDGE_MM || !isStraight(piece.points, sides)) return [];
        return [edgeOf(piece.points, chordErrorMm)];
      }
      const sides = beside[points.indexOf(piece.points[1])];
      const inscribed = isInscribed(piece, sides);
      if (!inscribed && piece.ring.spanRad < 2 * Math.PI) return [];
      return [ringOf(piece, facets, sides, piece.ring.misfitMm + (inscribed ? vertexErrorMm : chordErrorMm))];
    });
  });
}

type RingPiece = Extract<Piece, { kind: 'ring' }>;

const normalAt = ({ unit }: Facets, t: number): Vec3 => [unit[3 * t], unit[3 * t + 1], unit[3 * t + 2]];

function isEndOf(ring: RingPiece['ring'], cylinder: CylinderSide, normal: Vec3): boolean {
  const from = sub(ring.centre, cylinder.centre);
  const offAxis = addScaled(from, cylinder.axis, -dot(from, cylinder.axis));
  return (
    Math.abs(dot(ring.axis, cylinder.axis)) > PARALLEL_COS &&
    Math.abs(dot(ring.axis, normal)) > PARALLEL_COS &&
    Math.abs(ring.radiusMm - cylinder.radiusMm) < SAME_MM &&
    length(offAxis) < SAME_MM
  );
}

function sharpCorners({ beside }: Facets, regions: Regions): number[] {
  const sharp: number[] = [];
  beside.forEach((t, i) => {
    const s = Math.floor(i / 3);
    if (t > s && regions.isSharp(s, t)) sharp.push(i);
  });
  return sharp;
}

function edgeOf(points: readonly [Vec3, Vec3], errorMm: number): EdgeFeature {
  const [from, to] = points;
  return {
    kind: 'edge',
    from,
    to,
    errorMm,
    tiltErrorRad: Math.atan2(2 * errorMm, distance(from, to)),
    outline: [Float64Array.from(points.flat())],
  };
}

/** `vertexErrorMm`: bound on the distance of the ring's corners from the true circle, mm. */
function ringOf(
  { points, ring }: RingPiece,
  facets: Facets,
  sides: readonly [number, number],
  vertexErrorMm: number,
): RingFeature {
  const { centre, axis, radiusMm, spanRad, gain } = ring;
  const away = sub(points[1], centre);
  const outward = addScaled(away, axis, -dot(away, axis));
  const [one, other] = sides.map((t) => dot(normalAt(facets, t), outward));
  return {
    kind: 'ring',
    centre,
    axis,
    radiusMm,
    // Decided by the steeper of the two surfaces: it faces the axis (hole) or away from it (round).
    form: (Math.abs(one) > Math.abs(other) ? one : other) < 0 ? 'hole' : 'round',
    spanRad,
    errorMm: vertexErrorMm * gain.centre,
    radiusErrorMm: vertexErrorMm * gain.radius,
    tiltErrorRad: Math.atan(vertexErrorMm * gain.tiltRad),
    outline: [Float64Array.from(points.flat())],
  };
}
