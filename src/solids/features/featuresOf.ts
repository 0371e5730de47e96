import { addScaled, distance, normalize, type Vec3 } from '../../math/vec.ts';
import { roundingMm } from '../rounding.ts';
import type { Mesh } from '../solid.ts';
import { chainsOf } from './chains.ts';
import { cylinderOf } from './cylinder.ts';
import { type Facets, facetsOf } from './facets.ts';
import type { CylinderFeature, Feature, FlatFeature } from './feature.ts';
import { lineFeatures } from './lineFeatures.ts';
import { type Regions, regionsOf } from './regions.ts';

/** Smaller faces are left out, mm2: they are too small to measure from. */
const LEAST_FACE_MM2 = 4;
/** Flatness within which a face is found, mm. */
const FLAT_MM = 2e-3;

/**
 * The straight edges, round edges, flat faces and cylinders of a closed outward mesh whose surface is within `chordErrorMm`
 * of that of the true part. Several similar faces with folds below 31 degrees count as one round surface.
 *
 * Errors: a flat face, a cylinder's side or an edge is within the chord error e of the true one. Over an extent L, the
 * direction of a face or edge is wrong by at most 2 e / L. Errors of round edges: see `lineFeatures`.
 */
export function featuresOf(mesh: Mesh, chordErrorMm: number): Feature[] {
  const facets = facetsOf(mesh);
  const regions = regionsOf(facets);
  const vertexErrorMm = roundingMm(mesh.positions.reduce((most, x) => Math.max(most, Math.abs(x)), 0));
  const cylinders = regions.roundGroups.flatMap((group): CylinderFeature[] => {
    const found = cylinderOf(facets, regions, group, vertexErrorMm);
    if (found === undefined) return [];
    return [{ ...found, errorMm: chordErrorMm, outline: outlineOf(facets, found.triangles) }];
  });
  return [
    ...lineFeatures(facets, regions, cylinders, chordErrorMm, vertexErrorMm),
    ...flatFaces(facets, regions, chordErrorMm),
    ...cylinders,
  ];
}

const vertexAt = ({ positions: p }: Mesh, v: number): Vec3 => [p[3 * v], p[3 * v + 1], p[3 * v + 2]];

function flatFaces(facets: Facets, regions: Regions, errorMm: number): FlatFeature[] {
  const { mesh, unit, weight } = facets;
  const selected = new Set<number>();
  regions.areaMm2.forEach((area, region) => {
    if (regions.isFacet[region] === 0 && area >= LEAST_FACE_MM2) selected.add(region);
  });
  return [...trianglesByRegion(regions, selected)].map(([region, triangles]) => {
    let normal: Vec3 = [0, 0, 0];
    let [low, high]: [Vec3, Vec3] = [vertexAt(mesh, mesh.triangles[3 * triangles[0]]), [0, 0, 0]];
    high = low;
    for (const t of triangles) {
      normal = addScaled(normal, [unit[3 * t], unit[3 * t + 1], unit[3 * t + 2]], weight[t]);
      for (let k = 0; k < 3; k++) {
        const at = vertexAt(mesh, mesh.triangles[3 * t + k]);
        low = [Math.min(low[0], at[0]), Math.min(low[1], at[1]), Math.min(low[2], at[2])];
        high = [Math.max(high[0], at[0]), Math.max(high[1], at[1]), Math.max(high[2], at[2])];
      }
    }
    const areaMm2 = regions.areaMm2[region];
    // Least width of the face: its area is at most the width times its extent.
    const widthMm = areaMm2 / distance(low, high);
    return {
      kind: 'flat',
      normal: normalize(normal),
      areaMm2,
      triangles,
      errorMm,
      tiltErrorRad: Math.atan2(2 * (errorMm + FLAT_MM), widthMm),
      outline: outlineOf(facets, triangles),
    };
  });
}

function trianglesByRegion(regions: Regions, selected: ReadonlySet<number>): Map<number, Uint32Array> {
  const lists = new Map<number, number[]>();
  regions.of.forEach((region, t) => {
    if (!selected.has(region)) return;
    const list = lists.get(region);
    if (list === undefined) lists.set(region, [t]);
    else list.push(t);
  });
  return new Map([...lists].map(([region, list]) => [region, Uint32Array.from(list)]));
}

/** Boundary of some triangles, as joined lines. */
function outlineOf(facets: Facets, triangles: Uint32Array): Float64Array[] {
  const own = new Set(triangles);
  const bounds = Array.from(triangles, (t) => [3 * t, 3 * t + 1, 3 * t + 2])
    .flat()
    .filter((i) => !own.has(facets.beside[i]));
  return chainsOf(facets, bounds).map(({ vertices, closed }) =>
    Float64Array.from(
      (closed ? [...vertices, vertices[0]] : vertices).flatMap((v) => vertexAt(facets.mesh, v)),
    ),
  );
}
