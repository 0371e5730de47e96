import { Earcut } from 'three/src/extras/Earcut.js';
import { compose, invert, type Rigid } from '../../../math/rigid.ts';
import type { Carriers } from '../../../mechanism/pose.ts';
import { type SectionRegion, sectionOf } from '../../../solids/section.ts';
import type { Mesh, Solid } from '../../../solids/solid.ts';

/** The bodies of a solid to cut: the part itself, and the body that it sweeps in a full turn if that differs. */
export interface CutBody {
  carrier: Solid['carrier'];
  looks: Mesh;
  sweeps: Mesh | undefined;
}

export const cutBody = ({ carrier, mesh, shown }: Solid): CutBody => ({
  carrier,
  looks: shown ?? mesh,
  sweeps: shown === undefined ? undefined : mesh,
});

/** A cut through one part, ready to draw. Points are x y z in the frame of the plane, mm; z is 0. */
export interface PartCut {
  points: Float32Array;
  /** Triangles of the plane inside the part, three points each. */
  triangles: Uint32Array;
  /** Outline segments, two points each. */
  outline: Float32Array;
  /** Outline segments of the swept body, if it differs from the part. */
  swept: Float32Array;
  /** Distance of each point of `swept` along its outline, mm: for dashes. */
  sweptAlong: Float32Array;
}

/** Cuts every body at a pose with the plane z = 0 of a frame. Throws as `sectionOf` does. */
export const cutBodies = (
  bodies: readonly CutBody[],
  carriers: Carriers,
  vehicleFromPlane: Rigid,
): PartCut[] =>
  bodies.map(({ carrier, looks, sweeps }) => {
    const meshFromPlane = compose(invert(carriers[carrier]), vehicleFromPlane);
    const regions = sectionOf(looks, meshFromPlane);
    const swept = sweeps === undefined ? [] : sectionOf(sweeps, meshFromPlane);
    const sweptLines = linesOf(swept);
    return {
      ...filled(regions),
      outline: linesOf(regions).ends,
      swept: sweptLines.ends,
      sweptAlong: sweptLines.along,
    };
  });

function filled(regions: readonly SectionRegion[]): Pick<PartCut, 'points' | 'triangles'> {
  const points: number[] = [];
  const triangles: number[] = [];
  for (const { outer, holes } of regions) {
    const before = points.length / 3;
    const flat = [...outer];
    const starts: number[] = [];
    for (const hole of holes) {
      starts.push(flat.length / 2);
      for (const value of hole) flat.push(value);
    }
    for (const corner of Earcut.triangulate(flat, starts)) triangles.push(before + corner);
    for (let i = 0; i < flat.length; i += 2) points.push(flat[i], flat[i + 1], 0);
  }
  return { points: Float32Array.from(points), triangles: Uint32Array.from(triangles) };
}

/** Outlines as segments of two points, and the distance of each point along its outline. */
function linesOf(regions: readonly SectionRegion[]): { ends: Float32Array; along: Float32Array } {
  const outlines = regions.flatMap(({ outer, holes }) => [outer, ...holes]);
  const corners = outlines.reduce((sum, outline) => sum + outline.length / 2, 0);
  const ends = new Float32Array(6 * corners);
  const along = new Float32Array(2 * corners);
  let line = 0;
  for (const outline of outlines) {
    let gone = 0;
    for (let i = 0; i < outline.length; i += 2) {
      const next = (i + 2) % outline.length;
      const [x, y, toX, toY] = [outline[i], outline[i + 1], outline[next], outline[next + 1]];
      ends.set([x, y, 0, toX, toY, 0], 6 * line);
      along[2 * line] = gone;
      gone += Math.hypot(toX - x, toY - y);
      along[2 * line + 1] = gone;
      line += 1;
    }
  }
  return { ends, along };
}
