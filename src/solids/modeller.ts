import Module, { type CrossSection, type Manifold, type ManifoldToplevel } from 'manifold-3d';
import { applyPoint, fromAxes, type Rigid } from '../math/rigid.ts';
import { cos } from '../math/sine.ts';
import { cross, perpendicular, type Vec3 } from '../math/vec.ts';
import { trackHandles } from './modellerHandles.ts';
import type { Mesh } from './solid.ts';

export type { CrossSection, Manifold };

/**
 * The solid modeller (manifold-3d, WebAssembly): exact unions and cuts of closed solids, so that a part of many pieces is
 * one closed outward mesh. Its objects live until `release`.
 */
export interface Modeller {
  Manifold: ManifoldToplevel['Manifold'];
  CrossSection: ManifoldToplevel['CrossSection'];
  Mesh: ManifoldToplevel['Mesh'];
  triangulate: ManifoldToplevel['triangulate'];
  /** Frees every object made since the last call. Meshes taken out with `takeMesh` stay valid. */
  release(): void;
}

let loading: Promise<Modeller> | undefined;

/** Loads the modeller; later calls return the same one. */
export function loadModeller(): Promise<Modeller> {
  loading ??= Module().then((wasm) => {
    // Must run before setup(), which stores the constructors that it finds.
    const release = trackHandles(wasm);
    wasm.setup();
    const { Manifold, CrossSection, Mesh, triangulate } = wasm;
    return { Manifold, CrossSection, Mesh, triangulate, release };
  });
  return loading;
}

/**
 * Number of segments with which a polygon inscribed in a circle of `radiusMm` is within `chordToleranceMm` of it: the least
 * multiple of 4, at least 8, with r (1 - cos(pi / n)) <= tolerance.
 */
export function segmentsFor(radiusMm: number, chordToleranceMm: number): number {
  if (radiusMm <= chordToleranceMm) return 8;
  const n = Math.PI / Math.acos(1 - chordToleranceMm / radiusMm);
  return Math.max(8, 4 * Math.ceil(n / 4));
}

/** Greatest distance of a regular inscribed n-gon inside its circle of `radiusMm`, mm. */
export const chordErrorMm = (radiusMm: number, segments: number): number =>
  radiusMm * (1 - cos(Math.PI / segments));

/** Matrix for the modeller's `transform` (column-major 4x4). */
export type Matrix16 = Parameters<Manifold['transform']>[0];
export const matrix16 = (t: Rigid): Matrix16 => [
  t[0],
  t[4],
  t[8],
  0,
  t[1],
  t[5],
  t[9],
  0,
  t[2],
  t[6],
  t[10],
  0,
  t[3],
  t[7],
  t[11],
  1,
];

/** Cylinder or cone frustum between two points, with flat ends. Throws a RangeError if the points are equal. */
export function rod(
  modeller: Modeller,
  from: Vec3,
  to: Vec3,
  radiusMm: number,
  chordToleranceMm: number,
  endRadiusMm = radiusMm,
): Manifold {
  const [dx, dy, dz] = [to[0] - from[0], to[1] - from[1], to[2] - from[2]];
  const height = Math.hypot(dx, dy, dz);
  if (!(height > 0)) throw new RangeError('a rod needs two different ends');
  const segments = segmentsFor(Math.max(radiusMm, endRadiusMm), chordToleranceMm);
  const z: Vec3 = [dx / height, dy / height, dz / height];
  const worldFromRod = axisFrame(from, z);
  return modeller.Manifold.cylinder(height, radiusMm, endRadiusMm, segments).transform(
    matrix16(worldFromRod),
  );
}

/** A frame with its origin at `origin` and its z along the unit vector `z`. */
export function axisFrame(origin: Vec3, z: Vec3): Rigid {
  const x = perpendicular(z);
  return fromAxes(x, cross(z, x), z, origin);
}

/** A solid taken out of the modeller, in the frame in which it was modelled. */
export interface Model {
  /** x y z of each vertex. */
  positions: Float32Array;
  triangles: Uint32Array;
  volumeMm3: number;
  /** Largest coordinate, mm. */
  reachMm: number;
}

/** Takes a solid out of the modeller. Throws an Error with the modeller's status if it is empty or not a manifold. */
export function takeModel(solid: Manifold): Model {
  const status = solid.status();
  if (status !== 'NoError') throw new Error(`the solid could not be built: ${status}`);
  if (solid.isEmpty()) throw new Error('the solid is empty: its dimensions leave no material');
  const { vertProperties, triVerts, numProp } = solid.getMesh();
  const positions = new Float32Array((3 * vertProperties.length) / numProp);
  for (let i = 0; i < positions.length; i++)
    positions[i] = vertProperties[Math.floor(i / 3) * numProp + (i % 3)];
  const { min, max } = solid.boundingBox();
  return {
    positions,
    triangles: Uint32Array.from(triVerts),
    volumeMm3: solid.volume(),
    reachMm: Math.max(...min.map(Math.abs), ...max.map(Math.abs)),
  };
}

/** The mesh of a model, moved by `vehicleFromModel`. */
export function meshOfModel({ positions: p, triangles }: Model, vehicleFromModel: Rigid): Mesh {
  const t = vehicleFromModel;
  const positions = new Float64Array(p.length);
  for (let i = 0; i < p.length; i += 3) {
    const x = p[i];
    const y = p[i + 1];
    const z = p[i + 2];
    positions[i] = t[0] * x + t[1] * y + t[2] * z + t[3];
    positions[i + 1] = t[4] * x + t[5] * y + t[6] * z + t[7];
    positions[i + 2] = t[8] * x + t[9] * y + t[10] * z + t[11];
  }
  return { positions, triangles: triangles.slice() };
}

/** Takes the mesh of a solid out of the modeller, moved by `vehicleFromModel`. Throws as `takeModel` does. */
export const takeMesh = (solid: Manifold, vehicleFromModel: Rigid): Mesh =>
  meshOfModel(takeModel(solid), vehicleFromModel);

/**
 * Puts a closed outward mesh into the modeller, transformed by `modelFromMesh`; its coordinates are rounded to Float32.
 * Throws the modeller's error if the mesh is not closed.
 */
export function putMesh(modeller: Modeller, { positions, triangles }: Mesh, modelFromMesh: Rigid): Manifold {
  const vertProperties = new Float32Array(positions.length);
  for (let i = 0; i < positions.length; i += 3)
    vertProperties.set(applyPoint(modelFromMesh, [positions[i], positions[i + 1], positions[i + 2]]), i);
  return modeller.Manifold.ofMesh(new modeller.Mesh({ numProp: 3, vertProperties, triVerts: triangles }));
}
