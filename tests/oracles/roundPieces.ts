import {
  addScaled,
  cross,
  distance,
  dot,
  length,
  normalize,
  perpendicular,
  sub,
  type Vec3,
} from '../../src/math/vec.ts';
import type { Mesh } from '../../src/solids/solid.ts';
import { distanceToMeshMm } from './meshChecks.ts';
import { between } from './random.ts';

/** Exact bodies with exact distances: a right cylinder with flat ends, and a ball. */
export type Piece = { from: Vec3; to: Vec3; radius: number } | { centre: Vec3; radius: number };

/**
 * Exact signed distance from a point to a piece, negative inside. In the half plane of (distance from the axis,
 * position along it) a cylinder is a rectangle. Its signed distance is sdBox of
 * https://iquilezles.org/articles/distfunctions2d/ (from memory).
 */
export function signedDistanceMm(piece: Piece, p: Vec3): number {
  if ('centre' in piece) return distance(piece.centre, p) - piece.radius;
  const axis = normalize(sub(piece.to, piece.from));
  const half = distance(piece.from, piece.to) / 2;
  const fromMiddle = sub(p, addScaled(piece.from, axis, half));
  const along = Math.abs(dot(fromMiddle, axis)) - half;
  const out = length(cross(fromMiddle, axis)) - piece.radius;
  return Math.min(Math.max(along, out), 0) + Math.hypot(Math.max(along, 0), Math.max(out, 0));
}

function pointOn(piece: Piece, random: () => number): Vec3 {
  const turn = 2 * Math.PI * random();
  if ('centre' in piece) {
    const z = between(random, -1, 1);
    const r = Math.sqrt(1 - z * z);
    return addScaled(piece.centre, [r * Math.cos(turn), r * Math.sin(turn), z], piece.radius);
  }
  const axis = normalize(sub(piece.to, piece.from));
  const x = perpendicular(axis);
  const y = cross(axis, x);
  const outward = addScaled(addScaled([0, 0, 0], x, Math.cos(turn)), y, Math.sin(turn));
  const place = random();
  const span = distance(piece.from, piece.to);
  if (place < 0.6) return addScaled(addScaled(piece.from, axis, span * random()), outward, piece.radius);
  const end = place < 0.8 ? piece.from : piece.to;
  return addScaled(end, outward, piece.radius * Math.sqrt(random()));
}

/** Points on the true surface of a union of pieces: on one piece and inside none of the others. */
export function surfacePoints(pieces: readonly Piece[], count: number, random: () => number): Vec3[] {
  const points: Vec3[] = [];
  for (let tries = 0; points.length < count && tries < 50 * count; tries++) {
    const piece = pieces[Math.floor(random() * pieces.length)];
    const point = pointOn(piece, random);
    if (pieces.every((other) => other === piece || signedDistanceMm(other, point) > 0)) points.push(point);
  }
  return points;
}

/**
 * Compares a mesh with the true union. `truthToMeshMm`: largest distance from points of the union to the mesh. The
 * mesh's corners and the middles of its triangles project from the union by at most `proudestMm` and are below the
 * surface of every piece by at most -`deepestMm`.
 */
export function compareWithTruth(mesh: Mesh, pieces: readonly Piece[], count: number, random: () => number) {
  const truthToMeshMm = Math.max(
    ...surfacePoints(pieces, count, random).map((point) => distanceToMeshMm(mesh, point)),
  );
  let [deepestMm, proudestMm] = [Infinity, -Infinity];
  for (let t = 0; t < mesh.triangles.length; t += 3) {
    const corners = [0, 1, 2].map((k): Vec3 => {
      const i = 3 * mesh.triangles[t + k];
      return [mesh.positions[i], mesh.positions[i + 1], mesh.positions[i + 2]];
    });
    const middle = corners.reduce<Vec3>((sum, corner) => addScaled(sum, corner, 1 / 3), [0, 0, 0]);
    for (const point of [...corners, middle]) {
      const signed = Math.min(...pieces.map((piece) => signedDistanceMm(piece, point)));
      deepestMm = Math.min(deepestMm, signed);
      proudestMm = Math.max(proudestMm, signed);
    }
  }
  return { truthToMeshMm, deepestMm, proudestMm };
}
