import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { type CutBody, cutBodies, cutBody, type PartCut } from '../../../../src/app/workers/section/cut.ts';
import { compose, fromAxes, invert, translation } from '../../../../src/math/rigid.ts';
import { cross, dot, normalize, perpendicular, type Vec3 } from '../../../../src/math/vec.ts';
import { solvePose } from '../../../../src/mechanism/mechanism.ts';
import type { Carriers } from '../../../../src/mechanism/pose.ts';
import { sectionAreaMm2, sectionOf } from '../../../../src/solids/section.ts';
import { setUp } from '../../../../src/sweep/setUp.ts';
import { readDesign } from '../../../design/readDesign.ts';
import { signedVolumeMm3 } from '../../../oracles/meshChecks.ts';
import { between, mulberry32 } from '../../../oracles/random.ts';
import { COARSE } from '../../coarse/settings.ts';

async function corner(file: string) {
  const design = readDesign(readFileSync(`demo-data/${file}`, 'utf8'));
  return setUp(design, { ...COARSE, chordToleranceMm: 0.05 });
}

function filledArea({ points, triangles }: PartCut): number {
  let twice = 0;
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [3 * triangles[t], 3 * triangles[t + 1], 3 * triangles[t + 2]];
    twice += Math.abs(
      (points[b] - points[a]) * (points[c + 1] - points[a + 1]) -
        (points[c] - points[a]) * (points[b + 1] - points[a + 1]),
    );
  }
  return twice / 2;
}

const sectionArea = (
  mesh: CutBody['looks'],
  carriers: Carriers,
  carrier: CutBody['carrier'],
  plane: Float64Array,
) => sectionAreaMm2(sectionOf(mesh, compose(invert(carriers[carrier]), plane)));

describe.each(['gravelbeck.corner.json', 'larkrise.corner.json'])('cuts through every part of %s', (file) => {
  it('are filled as far as their outlines enclose, at random poses and planes', async () => {
    const { solids, mechanism, design } = await corner(file);
    const bodies = solids.map(cutBody);
    const seed = 4711;
    const random = mulberry32(seed);
    let met = 0;
    for (let trial = 0; trial < 20; trial++) {
      const pose = solvePose(mechanism, between(random, -40, 40), between(random, -0.8, 0.8));
      if (pose.kind !== 'solved') continue;
      const z = normalize([between(random, -1, 1), between(random, -1, 1), between(random, -1, 1)] as Vec3);
      const x = perpendicular(z);
      const centre = design.corner.suspension.hardpoints.wheelCentre;
      // In some trials through the wheel's own planes: vertices and whole faces lie in the plane.
      const plane =
        trial % 4 === 0
          ? compose(pose.carriers.upright, translation(centre))
          : compose(translation([0, between(random, -200, 100), 0]), fromAxes(x, cross(z, x), z, centre));
      const cuts = cutBodies(bodies, pose.carriers, plane);
      for (const [i, cut] of cuts.entries()) {
        const wanted = sectionArea(bodies[i].looks, pose.carriers, bodies[i].carrier, plane);
        const place = `${solids[i].id}, trial ${trial} of seed ${seed}`;
        expect(wanted, place).toBeGreaterThanOrEqual(0);
        expect(Math.abs(filledArea(cut) - wanted), place).toBeLessThanOrEqual(1e-4 * wanted + 1e-3);
        if (wanted > 0) met += 1;
      }
    }
    expect(met).toBeGreaterThan(50);
  });

  it('added up over parallel planes are the volume of each part', async () => {
    const { solids } = await corner(file);
    const seed = 815;
    const random = mulberry32(seed);
    for (const { id, mesh, shown } of solids) {
      const body = shown ?? mesh;
      const z = normalize([between(random, -1, 1), between(random, -1, 1), between(random, -1, 1)] as Vec3);
      const x = perpendicular(z);
      const frame = fromAxes(x, cross(z, x), z, [0, 0, 0]);
      let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
      for (let i = 0; i < body.positions.length; i += 3) {
        const height = dot(z, [body.positions[i], body.positions[i + 1], body.positions[i + 2]]);
        low = Math.min(low, height);
        high = Math.max(high, height);
      }
      const planes = 200;
      const step = (high - low) / planes;
      let sum = 0;
      for (let k = 0; k < planes; k++)
        sum +=
          step * sectionAreaMm2(sectionOf(body, compose(frame, translation([0, 0, low + (k + 0.5) * step]))));
      const volume = signedVolumeMm3(body);
      expect(Math.abs(sum - volume) / volume, `${id} of seed ${seed}`).toBeLessThan(0.01);
    }
  });
});
