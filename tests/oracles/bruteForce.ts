import { applyPoint, type Rigid, rotationAbout } from '../../src/math/rigid.ts';
import { normalize, type Vec3 } from '../../src/math/vec.ts';
import type { Mesh } from '../../src/solids/solid.ts';
import { between } from './random.ts';
import { slowTriangleDistance } from './triangleOracle.ts';

interface Ball {
  corners: number[];
  centre: Vec3;
  radius: number;
}

function balls({ positions, triangles }: Mesh, t?: Rigid): Ball[] {
  const out: Ball[] = [];
  for (let i = 0; i < triangles.length; i += 3) {
    const corners = [0, 1, 2].flatMap((k) => {
      const v = 3 * triangles[i + k];
      const p: Vec3 = [positions[v], positions[v + 1], positions[v + 2]];
      return t === undefined ? [...p] : [...applyPoint(t, p)];
    });
    const centre = [0, 1, 2].map((k) => (corners[k] + corners[3 + k] + corners[6 + k]) / 3);
    const radius = Math.max(
      ...[0, 3, 6].map((c) =>
        Math.hypot(corners[c] - centre[0], corners[c + 1] - centre[1], corners[c + 2] - centre[2]),
      ),
    );
    out.push({ corners, centre: [centre[0], centre[1], centre[2]], radius });
  }
  return out;
}

/**
 * Least distance of two surfaces: every triangle against every other, but for pairs whose balls are further apart than
 * some pair is for certain.
 */
export function bruteForceDistance(a: Mesh, b: Mesh, aFromB: Rigid): number {
  const [ofA, ofB] = [balls(a), balls(b, aFromB)];
  const middles = (one: Ball, other: Ball): number => {
    const dx = one.centre[0] - other.centre[0];
    const dy = one.centre[1] - other.centre[1];
    const dz = one.centre[2] - other.centre[2];
    return Math.sqrt(dx * dx + dy * dy + dz * dz);
  };
  let best = Infinity;
  for (const one of ofA) {
    for (const other of ofB) best = Math.min(best, middles(one, other) + one.radius + other.radius);
  }
  for (const one of ofA) {
    for (const other of ofB) {
      if (middles(one, other) - one.radius - other.radius > best + 1e-9) continue;
      best = Math.min(best, slowTriangleDistance(one.corners, other.corners));
    }
  }
  return best;
}

/** Least distance of a point from a surface. */
export function bruteForcePointDistance(mesh: Mesh, p: Vec3): number {
  return bruteForceDistance(
    mesh,
    { positions: Float64Array.from(p), triangles: Uint32Array.of(0, 0, 0) },
    Float64Array.of(1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0),
  );
}

/** A turn about a random axis and a shift by at most `shiftMm` along each. */
export function randomRigid(random: () => number, shiftMm: number): Rigid {
  const some = (): number => between(random, -1, 1);
  const t = rotationAbout([0, 0, 0], normalize([some(), some(), some() + 1e-3]), between(random, -3, 3));
  t[3] = shiftMm * some();
  t[7] = shiftMm * some();
  t[11] = shiftMm * some();
  return t;
}
