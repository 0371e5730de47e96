/**
 * Clearances of convex primitives against npm mujoco-js 0.0.7 (MuJoCo, Apache-2.0), whose mj_geomDistance measures
 * exact balls, capsules, cylinders and boxes. Boxes must agree within its own tolerance, round shapes within the
 * error stated in our result. For one in fifty pairs of separated boxes it returns exactly 0 (its search ended
 * without a distance). Those are compared with every pair of triangles instead.
 */
import loadMujoco from 'mujoco-js';
import { describe, expect, it } from 'vitest';
import { type Body, prepareBody } from '../../src/clearance/body.ts';
import { measure } from '../../src/clearance/query.ts';
import type { Mesh } from '../../src/solids/solid.ts';
import { bruteForceDistance, randomRigid } from '../oracles/bruteForce.ts';
import { mulberry32 } from '../oracles/random.ts';
import { box, capsule, rod, sphere } from '../oracles/shapes.ts';

const SEGMENTS = 48;
/** MuJoCo's convex distance is iterative: its default tolerance is 1e-6. */
const MUJOCO_MM = 2e-6;
const POSES = 60;

const mujoco = await loadMujoco();

const round = (radius: number): number => 2 * radius * (1 - Math.cos(Math.PI / SEGMENTS));
const bodyOf = (mesh: Mesh, chordErrorMm: number) => ({ mesh, body: prepareBody(mesh, { chordErrorMm }) });
/** Each shape as a geom of MuJoCo (half sizes) and as a body of ours. */
const SHAPES: Record<string, { geom: string; mesh: Mesh; body: Body }> = {
  box: {
    geom: 'type="box" size="4 2.5 1.5"',
    ...bodyOf(box(8, 5, 3), 0),
  },
  ball: {
    geom: 'type="sphere" size="5"',
    ...bodyOf(sphere(5, SEGMENTS), round(5)),
  },
  capsule: {
    geom: 'type="capsule" size="2 6"',
    ...bodyOf(capsule(2, 12, SEGMENTS), round(2)),
  },
  cylinder: {
    geom: 'type="cylinder" size="3 4"',
    ...bodyOf(rod(3, -4, 4, SEGMENTS), round(3)),
  },
};
const NAMES = Object.keys(SHAPES);

describe('convex primitives against MuJoCo', () => {
  it.each(NAMES.flatMap((a, i) => NAMES.slice(i).map((b) => [a, b] as const)))('%s and %s', (a, b) => {
    mujoco.FS.writeFile(
      '/pair.xml',
      `<mujoco><worldbody><geom ${SHAPES[a].geom}/><body><freejoint/><geom ${SHAPES[b].geom}/></body></worldbody></mujoco>`,
    );
    const model = mujoco.MjModel.loadFromXML('/pair.xml');
    const data = new mujoco.MjData(model);
    mujoco.mj_kinematics(model, data);
    const fromTo = new Float64Array(6);
    let apart = 0;
    let withoutDistance = 0;
    for (let seed = 1; seed <= POSES; seed++) {
      const t = randomRigid(mulberry32(seed), 14);
      data.geom_xpos.set([t[3], t[7], t[11]], 3);
      data.geom_xmat.set([t[0], t[1], t[2], t[4], t[5], t[6], t[8], t[9], t[10]], 9);
      const theirs = mujoco.mj_geomDistance(model, data, 0, 1, 1000, fromTo);
      const found = measure(SHAPES[a].body, SHAPES[b].body, t);
      if (!('errorMm' in found)) throw new Error(found.kind);
      const where = `seed ${seed}: ${found.kind} ${found.distanceMm} ± ${found.errorMm}, MuJoCo ${theirs}`;
      if (theirs === 0) {
        const slow = bruteForceDistance(SHAPES[a].mesh, SHAPES[b].mesh, t);
        expect(Math.abs(found.distanceMm - slow), `${where}, slow ${slow}`).toBeLessThanOrEqual(1e-9 * slow);
        withoutDistance++;
      } else if (theirs < 0) {
        expect(found.distanceMm, where).toBeLessThanOrEqual(found.errorMm);
      } else if (found.kind === 'separated') {
        expect(Math.abs(found.distanceMm - theirs), where).toBeLessThanOrEqual(found.errorMm + MUJOCO_MM);
        apart++;
      } else expect(theirs, where).toBeLessThanOrEqual(found.errorMm + MUJOCO_MM);
    }
    expect(apart).toBeGreaterThan(POSES / 4);
    expect(withoutDistance).toBeLessThan(POSES / 10);
  });
});
