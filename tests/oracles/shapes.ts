import { applyPoint, type Rigid } from '../../src/math/rigid.ts';
import type { Mesh } from '../../src/solids/solid.ts';

/** Small closed outward meshes of known shape, made without the modeller. Millimetres. */

type Triple = readonly [number, number, number];

export const meshOf = (positions: readonly Triple[], triangles: readonly Triple[]): Mesh => ({
  positions: Float64Array.from(positions.flat()),
  triangles: Uint32Array.from(triangles.flat()),
});

/** A box of these side lengths about the origin. */
export function box(x: number, y: number, z: number): Mesh {
  const corners = Array.from(
    { length: 8 },
    (_, i): Triple => [((i & 1 ? 1 : -1) * x) / 2, ((i & 2 ? 1 : -1) * y) / 2, ((i & 4 ? 1 : -1) * z) / 2],
  );
  const quads = [
    [0, 2, 3, 1],
    [4, 5, 7, 6],
    [0, 1, 5, 4],
    [2, 6, 7, 3],
    [0, 4, 6, 2],
    [1, 3, 7, 5],
  ];
  return meshOf(
    corners,
    quads.flatMap(([a, b, c, d]): Triple[] => [
      [a, b, c],
      [a, c, d],
    ]),
  );
}

/**
 * The ring about z of a closed polygon of (radius, height) points, anticlockwise with the radius to the right and the
 * height up. All radii must be above 0.
 */
export function ring(profile: readonly (readonly [number, number])[], segments: number): Mesh {
  const n = profile.length;
  const positions: Triple[] = [];
  const triangles: Triple[] = [];
  for (let s = 0; s < segments; s++) {
    const angle = (2 * Math.PI * s) / segments;
    for (const [r, z] of profile) positions.push([r * Math.cos(angle), r * Math.sin(angle), z]);
    const next = ((s + 1) % segments) * n;
    for (let k = 0; k < n; k++) {
      const [a, b] = [s * n + k, s * n + ((k + 1) % n)];
      const [c, d] = [next + k, next + ((k + 1) % n)];
      triangles.push([a, c, d], [a, d, b]);
    }
  }
  return meshOf(positions, triangles);
}

/** A torus about z; its tube has `sides` corners. */
export const torus = (radius: number, tube: number, segments: number, sides: number): Mesh =>
  ring(
    Array.from({ length: sides }, (_, k) => {
      const angle = (2 * Math.PI * k) / sides;
      return [radius + tube * Math.cos(angle), tube * Math.sin(angle)] as const;
    }),
    segments,
  );

/**
 * The solid of revolution of an open line of (radius, height) points from the lower pole (radius 0) to the upper one.
 * Adds a pole on the axis if the line does not start or end there.
 */
export function turned(line: readonly (readonly [number, number])[], segments: number): Mesh {
  const [bottom, top] = [line[0][1], line[line.length - 1][1]];
  const inner = line.filter(([r]) => r > 0);
  const n = inner.length;
  const positions: Triple[] = [
    [0, 0, bottom],
    [0, 0, top],
  ];
  const triangles: Triple[] = [];
  for (let s = 0; s < segments; s++) {
    const angle = (2 * Math.PI * s) / segments;
    for (const [r, z] of inner) positions.push([r * Math.cos(angle), r * Math.sin(angle), z]);
    const here = 2 + s * n;
    const next = 2 + ((s + 1) % segments) * n;
    triangles.push([0, next, here], [1, here + n - 1, next + n - 1]);
    for (let k = 0; k + 1 < n; k++) {
      triangles.push([here + k, next + k, next + k + 1], [here + k, next + k + 1, here + k + 1]);
    }
  }
  return meshOf(positions, triangles);
}

/** A round rod about z with flat ends, at z from `from` to `to`. */
export const rod = (radius: number, from: number, to: number, segments: number, stations = 1): Mesh =>
  turned(
    Array.from({ length: stations + 1 }, (_, k) => [radius, from + ((to - from) * k) / stations] as const),
    segments,
  );

export const sphere = (radius: number, segments: number): Mesh =>
  turned(
    Array.from({ length: segments / 2 + 1 }, (_, k) => {
      const angle = (2 * Math.PI * k) / segments;
      const ends = k === 0 || k === segments / 2;
      return [ends ? 0 : radius * Math.sin(angle), -radius * Math.cos(angle)] as const;
    }),
    segments,
  );

/** A capsule about z: `height` between the centres of its round ends. */
export const capsule = (radius: number, height: number, segments: number): Mesh => {
  const half = segments / 2;
  const line = Array.from({ length: half + 1 }, (_, k) => {
    const angle = (2 * Math.PI * k) / segments;
    const pole = k === 0 || k === half;
    return [pole ? 0 : radius * Math.sin(angle), -radius * Math.cos(angle)] as const;
  });
  const lower = line.slice(0, half / 2 + 1).map(([r, z]) => [r, z - height / 2] as const);
  const upper = line.slice(half / 2).map(([r, z]) => [r, z + height / 2] as const);
  return turned([...lower, ...upper], segments);
};

export function moved({ positions, triangles }: Mesh, t: Rigid): Mesh {
  const out = new Float64Array(positions.length);
  for (let i = 0; i < positions.length; i += 3)
    out.set(applyPoint(t, [positions[i], positions[i + 1], positions[i + 2]]), i);
  return { positions: out, triangles };
}

export function merged(...meshes: readonly Mesh[]): Mesh {
  const positions: number[] = [];
  const triangles: number[] = [];
  for (const mesh of meshes) {
    const before = positions.length / 3;
    for (const x of mesh.positions) positions.push(x);
    for (const v of mesh.triangles) triangles.push(v + before);
  }
  return { positions: Float64Array.from(positions), triangles: Uint32Array.from(triangles) };
}

/** The mesh inside out. */
export const turnedInsideOut = ({ positions, triangles }: Mesh): Mesh => ({
  positions,
  triangles: triangles.map((_, i) => triangles[i - (i % 3) + [0, 2, 1][i % 3]]),
});

/** The mesh without one triangle: open. */
export const withoutTriangle = ({ positions, triangles }: Mesh, triangle: number): Mesh => ({
  positions,
  triangles: triangles.filter((_, i) => Math.floor(i / 3) !== triangle),
});
