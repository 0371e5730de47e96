import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { BufferAttribute, BufferGeometry, Matrix4 } from 'three';
import { MeshBVH } from 'three-mesh-bvh';
import { describe, expect, it } from 'vitest';
import { CLEARANCE_KINDS } from '../../src/clearance/clearance.ts';
import { compose, invert, toMatrix4 } from '../../src/math/rigid.ts';
import { solvePose } from '../../src/mechanism/mechanism.ts';
import type { Mesh } from '../../src/solids/solid.ts';
import { RowSweeper } from '../../src/sweep/row.ts';
import { meshBeside, setUp } from '../../src/sweep/setUp.ts';
import { readDesign } from '../design/readDesign.ts';
import { mulberry32 } from '../oracles/random.ts';

const SEED = 20261125;
const POSES = 6;

/** Error of float32 positions at a distance of one metre, for both meshes and the pose, mm. */
const FLOAT32_MM = 5e-4;

function geometryOf(mesh: Mesh): BufferGeometry {
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(Float32Array.from(mesh.positions), 3));
  geometry.setIndex(new BufferAttribute(mesh.triangles.slice(), 1));
  return geometry;
}

/** Caches the result of `make` for each mesh. */
function memoised<T>(make: (mesh: Mesh) => T): (mesh: Mesh) => T {
  const made = new Map<Mesh, T>();
  return (mesh) => {
    const known = made.get(mesh) ?? make(mesh);
    made.set(mesh, known);
    return known;
  };
}

/** Compares clearances with the distances that three-mesh-bvh finds between the same meshes at the same pose. */
describe('clearances of whole corners, compared with three-mesh-bvh', () => {
  it.each(['gravelbeck', 'larkrise'])('agree on %s at random poses', async (name) => {
    const design = readDesign(
      readFileSync(resolve(import.meta.dirname, `../../demo-data/${name}.corner.json`), 'utf8'),
    );
    const settings = { travelSteps: 3, steerSteps: 3, limitMm: 25, chordToleranceMm: 1 };
    const setup = await setUp(design, settings);
    const treeOf = memoised((mesh: Mesh) => {
      const geometry = geometryOf(mesh);
      const tree = new MeshBVH(geometry);
      // The search uses both trees if the other geometry has one.
      geometry.boundsTree = tree;
      return tree;
    });
    const sweeper = new RowSweeper(setup);
    const random = mulberry32(SEED);
    const { bump, droop } = design.corner.suspension.travel;
    let compared = 0;
    for (let k = 0; k < POSES; k++) {
      const travelMm = -droop + random() * (bump + droop);
      const steer = 2 * random() - 1;
      const row = sweeper.sweep(travelMm, Float64Array.of(steer));
      const pose = solvePose(setup.mechanism, travelMm, steer);
      if (pose.kind !== 'solved') throw new Error(`pose ${travelMm}, ${steer} is unreachable`);
      setup.pairs.forEach((pair, p) => {
        if (pair.zones.length > 0 || CLEARANCE_KINDS[row.state[p]] !== 'separated') return;
        const [a, b] = [setup.solids[pair.a], setup.solids[pair.b]];
        const aFromB = compose(invert(pose.carriers[a.carrier]), pose.carriers[b.carrier]);
        const matrix = new Matrix4().set(...(toMatrix4(aFromB) as Parameters<Matrix4['set']>));
        const [one, other] = [meshBeside(a, b).mesh, meshBeside(b, a).mesh];
        const found = treeOf(one).closestPointToGeometry(
          treeOf(other).geometry,
          matrix,
          undefined,
          undefined,
          0,
          settings.limitMm + 1,
        );
        const where = `${a.id} and ${b.id} at travel ${travelMm}, steer ${steer} (seed ${SEED})`;
        expect(Math.abs((found?.distance ?? Number.NaN) - row.clearanceMm[p]), where).toBeLessThan(
          FLOAT32_MM,
        );
        compared += 1;
      });
    }
    expect(compared).toBeGreaterThan(60);
  });
});
