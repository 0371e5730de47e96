import { describe, expect, it } from 'vitest';
import { drawnMesh } from '../../../../src/app/workers/drawing/drawnMesh.ts';
import { refine, type Sampled } from '../../../../src/app/workers/tint/refine.ts';
import { applyPoint } from '../../../../src/math/rigid.ts';
import type { Vec3 } from '../../../../src/math/vec.ts';
import type { Mesh } from '../../../../src/solids/solid.ts';
import { randomRigid } from '../../../oracles/bruteForce.ts';
import { between, mulberry32 } from '../../../oracles/random.ts';
import { box, moved, rod } from '../../../oracles/shapes.ts';

const SEED = 5531;
const OPTIONS = { leastMm: 2, growth: 0.4, mostPoints: 100_000 };

/** Clearance to a ball: changes by no more than the way. */
const toBall = (centre: Vec3, radius: number) => (x: number, y: number, z: number) => {
  const clearanceMm = Math.hypot(x - centre[0], y - centre[1], z - centre[2]) - radius;
  return { clearanceMm, marginMm: clearanceMm - 5, atLeastMm: clearanceMm, excludedMask: 0 };
};

function refined(mesh: Mesh, measure: ReturnType<typeof toBall>, nearMm = 5, options = OPTIONS): Sampled {
  const steps = refine(drawnMesh(mesh), measure, nearMm, options);
  let step = steps.next();
  while (!step.done) step = steps.next();
  return step.value;
}

const cornerOf = ({ positions: p }: Sampled, v: number): Vec3 => [p[3 * v], p[3 * v + 1], p[3 * v + 2]];

describe(`a surface measured at samples (seed ${SEED})`, () => {
  const random = mulberry32(SEED);
  const meshes = () =>
    [box(80, 40, 160), rod(12, -200, 200, 24)].map((mesh) => moved(mesh, randomRigid(random, 50)));
  const ball = () => {
    const centre = applyPoint(randomRigid(random, 80), [0, 0, 0]);
    return toBall(centre, between(random, 5, 30));
  };

  it('holds at each sample what is measured there', () => {
    for (const mesh of meshes()) {
      const measure = ball();
      const sampled = refined(mesh, measure);
      expect(sampled.clearanceMm.length).toBeGreaterThan(mesh.positions.length / 3);
      sampled.clearanceMm.forEach((mm, v) => {
        const { clearanceMm, marginMm } = measure(...cornerOf(sampled, v));
        expect(mm).toBe(Math.fround(clearanceMm));
        expect(sampled.marginMm[v]).toBe(Math.fround(marginMm));
      });
    }
  });

  it('stays closed and of the same area: no gap opens where one triangle was halved more often than the next', () => {
    for (let round = 0; round < 10; round++) {
      for (const mesh of meshes()) {
        const sampled = refined(mesh, ball());
        const edges = new Map<string, number>();
        const { triangles } = sampled;
        for (let i = 0; i < triangles.length; i++) {
          const ends = [triangles[i], triangles[i - (i % 3) + ((i + 1) % 3)]].map((v) =>
            cornerOf(sampled, v).join(' '),
          );
          const [key, back] = [ends.join(' to '), ends.reverse().join(' to ')];
          if (edges.get(back) === 1) edges.delete(back);
          else edges.set(key, (edges.get(key) ?? 0) + 1);
        }
        expect([...edges]).toEqual([]);
      }
    }
  });

  it('is off between samples by no more than it says', () => {
    let worst = 0;
    for (let round = 0; round < 20; round++) {
      for (const mesh of meshes()) {
        const measure = ball();
        const sampled = refined(mesh, measure);
        const { triangles, clearanceMm } = sampled;
        for (let t = 0; t < triangles.length; t += 3) {
          const [u, v] = [random(), random()].sort((a, b) => a - b);
          const weights = [u, v - u, 1 - v];
          const corners = [0, 1, 2].map((k) => cornerOf(sampled, triangles[t + k]));
          const at = [0, 1, 2].map((k) => weights.reduce((sum, w, i) => sum + w * corners[i][k], 0));
          const drawnMm = weights.reduce((sum, w, i) => sum + w * clearanceMm[triangles[t + i]], 0);
          const trueMm = measure(at[0], at[1], at[2]).clearanceMm;
          if (trueMm > 5) continue;
          expect(Math.abs(drawnMm - trueMm)).toBeLessThanOrEqual(sampled.betweenMm + 1e-4);
          worst = Math.max(worst, Math.abs(drawnMm - trueMm) / sampled.betweenMm);
        }
      }
    }
    expect(worst).toBeGreaterThan(0.05);
  });

  it('has short sides, beside a near part, where the edge runs of what it is left out in', () => {
    // A plane 1 mm above the top of a block is left out within a ball on it.
    const within = 20;
    const measure = (x: number, y: number, z: number) => {
      const excludedMask = Number(Math.hypot(x, y, z - 50) < within);
      const clearanceMm = excludedMask === 1 ? 30 : Math.min(30, 51 - z);
      return { clearanceMm, marginMm: clearanceMm - 5, atLeastMm: clearanceMm, excludedMask };
    };
    const sampled = refined(box(200, 200, 100), measure);
    const isWithin = ([x, y]: Vec3) => Math.hypot(x, y) < within;
    let crossed = 0;
    for (let i = 0; i < sampled.triangles.length; i++) {
      const [v, w] = [sampled.triangles[i], sampled.triangles[i - (i % 3) + ((i + 1) % 3)]];
      const [from, to] = [cornerOf(sampled, v), cornerOf(sampled, w)];
      if (from[2] !== 50 || to[2] !== 50 || isWithin(from) === isWithin(to)) continue;
      crossed += 1;
      expect(Math.hypot(from[0] - to[0], from[1] - to[1])).toBeLessThanOrEqual(OPTIONS.leastMm);
    }
    expect(crossed).toBeGreaterThan(50);
  });

  it('misses no near spot in the middle of a long side', () => {
    const bar = box(10, 10, 1000);
    const sampled = refined(bar, toBall([15, 0, 77], 9.5));
    const least = Math.min(...sampled.clearanceMm);
    expect(least).toBeGreaterThanOrEqual(0.5 - 1e-5);
    expect(least).toBeLessThan(0.5 + sampled.betweenMm);
  });

  it('says so where it may not take as many samples as it needs', () => {
    const few = refined(box(200, 200, 200), toBall([0, 0, 103], 2), 5, { ...OPTIONS, mostPoints: 100 });
    const many = refined(box(200, 200, 200), toBall([0, 0, 103], 2));
    expect(few.betweenMm).toBeGreaterThan(2 * many.betweenMm);
  });
});
