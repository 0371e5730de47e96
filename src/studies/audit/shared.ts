import { applyPoint, compose, invert, type Rigid, translation } from '../../math/rigid.ts';
import type { Vec3 } from '../../math/vec.ts';
import type { SolvedPose } from '../../mechanism/pose.ts';
import { type Manifold, type Modeller, matrix16, putMesh } from '../../solids/modeller.ts';
import { roundingMm } from '../../solids/rounding.ts';
import type { Mesh, Solid } from '../../solids/solid.ts';
import { meshBeside } from '../../sweep/setUp.ts';
import type { Intended } from './intendedContact.ts';
import { type Region, regionSolid } from './region.ts';

/** A whole solid as a closed mesh with outward normals, in its carrier's frame. */
export interface WholeSolid {
  mesh: Mesh;
  chordErrorMm: number;
}

/** Transforms of two solids and of the regions between them at one placement. */
export interface Placed {
  vehicleFromA: Rigid;
  vehicleFromB: Rigid;
  /** For each region, in order. */
  vehicleFromRegion: readonly Rigid[];
}

/** The volume that two solids share at one placement. */
export interface Shared {
  volumeMm3: number;
  /** For each region in order, the part of the volume inside it but outside the regions before it. */
  explainedMm3: readonly number[];
  unexplainedMm3: number;
  /** First-order error bound of the unexplained volume of the true parts: its surface area times both chord errors. */
  errorMm3: number;
  /** Middle and extent along the vehicle's axes of the largest unexplained piece; NaN if there is none. */
  middle: Vec3;
  extentMm: Vec3;
}

/** Enlargement of a region: both chord errors and the rounding of both meshes in the modeller, mm. */
export const enlargedByMm = (a: WholeSolid, b: WholeSolid): number =>
  [a, b].reduce((sum, { mesh, chordErrorMm }) => sum + chordErrorMm + roundingMm(reachMm(mesh)), 0);

const reachMm = ({ positions }: Mesh): number => {
  const { low, high } = boundsOf(positions);
  return Math.max(...high.map((x, k) => (x - low[k]) / 2));
};

const NOTHING: Vec3 = [Number.NaN, Number.NaN, Number.NaN];

/**
 * The volume that two whole solids share at each placement, and how much of it the regions explain, each enlarged by
 * `enlargedByMm`. Runs without interruption, because everything created in the modeller is released at the end.
 * Throws what the modeller throws for a mesh that is not closed.
 */
export function sharedAt(
  modeller: Modeller,
  a: WholeSolid,
  b: WholeSolid,
  regions: readonly Region[],
  placements: readonly Placed[],
): Shared[] {
  try {
    const [one, other] = [centred(modeller, a), centred(modeller, b)];
    const errorMm = enlargedByMm(a, b);
    const enlarged = regions.map((region) => regionSolid(modeller, region, errorMm));
    return placements.map((placed) => {
      const modelFromVehicle = compose(invert(one.meshFromModel), invert(placed.vehicleFromA));
      const at = (solid: Manifold, vehicleFrom: Rigid) =>
        solid.transform(matrix16(compose(modelFromVehicle, vehicleFrom)));
      let left = one.solid.intersect(at(other.solid, compose(placed.vehicleFromB, other.meshFromModel)));
      const volumeMm3 = left.volume();
      let leftMm3 = volumeMm3;
      const explainedMm3 = enlarged.map((region, k) => {
        if (leftMm3 === 0) return 0;
        const before = leftMm3;
        if (region === undefined) leftMm3 = 0;
        else {
          left = left.subtract(at(region, placed.vehicleFromRegion[k]));
          leftMm3 = left.volume();
        }
        return before - leftMm3;
      });
      if (leftMm3 === 0)
        return {
          volumeMm3,
          explainedMm3,
          unexplainedMm3: 0,
          errorMm3: 0,
          middle: NOTHING,
          extentMm: NOTHING,
        };
      const vehicleFromModel = compose(placed.vehicleFromA, one.meshFromModel);
      return {
        volumeMm3,
        explainedMm3,
        unexplainedMm3: leftMm3,
        errorMm3: left.surfaceArea() * errorMm,
        ...largestPiece(left, vehicleFromModel),
      };
    });
  } finally {
    modeller.release();
  }
}

/** The volume that two solids share at some poses; see `sharedAt`. Each region moves with its carrier. */
export function sharedBetween(
  modeller: Modeller,
  [one, other]: readonly [Solid, Solid],
  intended: readonly Intended[],
  poses: readonly Pick<SolvedPose, 'carriers'>[],
): Shared[] {
  return sharedAt(
    modeller,
    meshBeside(one, other),
    meshBeside(other, one),
    intended.map(({ region }) => region),
    poses.map(({ carriers }) => ({
      vehicleFromA: carriers[one.carrier],
      vehicleFromB: carriers[other.carrier],
      vehicleFromRegion: intended.map(({ carrier }): Rigid => carriers[carrier]),
    })),
  );
}

/** A mesh in the modeller, centred on its own middle, where the rounding of its coordinates is smallest. */
function centred(modeller: Modeller, { mesh }: WholeSolid): { solid: Manifold; meshFromModel: Rigid } {
  const { low, high } = boundsOf(mesh.positions);
  const middle: Vec3 = [(low[0] + high[0]) / 2, (low[1] + high[1]) / 2, (low[2] + high[2]) / 2];
  const meshFromModel = translation(middle);
  const solid = putMesh(modeller, mesh, invert(meshFromModel));
  return { solid, meshFromModel };
}

function largestPiece(solid: Manifold, vehicleFromModel: Rigid): Pick<Shared, 'middle' | 'extentMm'> {
  const pieces = solid.decompose();
  const largest = pieces.reduce((best, piece) => (piece.volume() > best.volume() ? piece : best));
  const { vertProperties, numProp } = largest.getMesh();
  const positions = new Float64Array((vertProperties.length / numProp) * 3);
  for (let i = 0; i * numProp < vertProperties.length; i++) {
    const at = i * numProp;
    const point: Vec3 = [vertProperties[at], vertProperties[at + 1], vertProperties[at + 2]];
    positions.set(applyPoint(vehicleFromModel, point), 3 * i);
  }
  const { low, high } = boundsOf(positions);
  return {
    middle: [(low[0] + high[0]) / 2, (low[1] + high[1]) / 2, (low[2] + high[2]) / 2],
    extentMm: [high[0] - low[0], high[1] - low[1], high[2] - low[2]],
  };
}

function boundsOf(positions: Float64Array): { low: number[]; high: number[] } {
  const low = [Infinity, Infinity, Infinity];
  const high = [-Infinity, -Infinity, -Infinity];
  positions.forEach((x, i) => {
    low[i % 3] = Math.min(low[i % 3], x);
    high[i % 3] = Math.max(high[i % 3], x);
  });
  return { low, high };
}
