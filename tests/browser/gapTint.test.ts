import { AxeBuilder } from '@axe-core/playwright';
import { beforeAll, describe, expect, it } from 'vitest';
import { readBody } from '../../src/app/workers/tape/readBody.ts';
import {
  clearanceAt,
  type Neighbour,
  outsideCutZones,
  pointResult,
} from '../../src/clearance/pointClearance.ts';
import { measure } from '../../src/clearance/query.ts';
import { identity } from '../../src/math/rigid.ts';
import { add, addScaled, cross, dot, length, scale, sub, type Vec3 } from '../../src/math/vec.ts';
import { solvePose } from '../../src/mechanism/mechanism.ts';
import type { Solid } from '../../src/solids/solid.ts';
import type { Setup } from '../../src/sweep/setUp.ts';
import { demoText, setUpCoarse } from '../app/coarse/setUpCoarse.ts';
import { onWorkbench } from './onWorkbench.ts';
import { viewFrom } from './viewFrom.ts';

const bench = onWorkbench({ demo: 'gravelbeck' });
let setup: Setup;

const legend = () => bench.page.getByRole('region', { name: 'Gap tint' });
const done = () => bench.page.locator('[data-shading=done]').waitFor({ timeout: 60_000 });
const pointed = async () => (await bench.page.getByTestId('pointed').textContent()) ?? '';

beforeAll(async () => {
  setup = await setUpCoarse(demoText('gravelbeck'));
  await bench.page.getByRole('button', { name: 'mm', exact: true }).click();
});

const HIDDEN = ['wheel', 'tyre'];

/** The centre of an unobstructed triangle that faces the eye, at most 8 mm from another part. */
function visibleSpot(eye: Vec3, visible: readonly Solid[]): { at: Vec3; clearanceMm: number } {
  const bodies = visible.map(({ mesh, chordErrorMm }) => readBody(mesh, chordErrorMm));
  for (const solid of visible) {
    const index = setup.solids.indexOf(solid);
    const neighbours = setup.pairs.flatMap(({ a, b, zones }, pair): Neighbour[] => {
      const body = a === index ? setup.bodies[pair].b : b === index ? setup.bodies[pair].a : undefined;
      const outsideZonesMm = outsideCutZones(zones, solid.chordErrorMm);
      const more = { neighbourFromThis: identity(), outsideZonesMm, requiredMm: 0, mayOverlap: false };
      return body === undefined ? [] : [{ body, ...more }];
    });
    const { positions: p, triangles } = solid.mesh;
    for (let t = 0; t < triangles.length; t += 3) {
      const [a, b, c] = [0, 1, 2].map((k): Vec3 => {
        const v = 3 * triangles[t + k];
        return [p[v], p[v + 1], p[v + 2]];
      });
      const square = cross(sub(b, a), sub(c, a));
      // Large enough to point at, and not edge-on.
      if (length(square) < 60 || dot(square, eye) < 0.7 * length(square)) continue;
      const at = scale(add(add(a, b), c), 1 / 3);
      clearanceAt(neighbours, ...at, 30);
      const { clearanceMm, nearest } = pointResult;
      if (nearest < 0 || clearanceMm > 8) continue;
      if (bodies.every((body) => body.meet(addScaled(at, eye, 0.01), eye) === undefined))
        return { at, clearanceMm };
    }
  }
  throw new Error('no such spot is visible');
}

describe('the gap tint', () => {
  it('shows its legend with the least gap of all pairs at this pose', async () => {
    const { page } = bench;
    await page.getByRole('button', { name: 'Gap tint', exact: true }).click();
    await legend().waitFor();
    await done();
    const text = (await legend().textContent()) ?? '';
    const [, least] = /(−?[\d.]+) ± [\d.]+ mm least/.exec(text) ?? [];
    const [, between] = /± ([\d.]+) mm between samples/.exec(text) ?? [];
    const found = setup.bodies.map(({ a, b }) => measure(a, b, identity()));
    const wanted = Math.min(
      ...found.map((one) => ('distanceMm' in one ? one.distanceMm : Number.POSITIVE_INFINITY)),
    );
    expect(Number(least)).toBeGreaterThanOrEqual(wanted - 0.01);
    expect(Number(least)).toBeLessThanOrEqual(wanted + Number(between));
  });

  it.each(['light', 'dark'] as const)(
    'has a legend in which axe-core finds no fault, %s',
    async (colorScheme) => {
      const { page } = bench;
      await page.emulateMedia({ colorScheme });
      const { violations, passes } = await new AxeBuilder({ page }).include('.shade-legend').analyze();
      expect(passes.length).toBeGreaterThan(3);
      expect(violations.map(({ id, help }) => `${id} (${help})`)).toEqual([]);
      await page.emulateMedia({ colorScheme: 'light' });
    },
  );

  it('shows the gap from the surface under the pointer to the nearest other part', async () => {
    const { page } = bench;
    for (const { id, label } of setup.solids)
      if (HIDDEN.includes(id)) await page.getByRole('button', { name: `Show ${label}` }).click();
    await page.getByRole('button', { name: 'Outboard', exact: true }).click();
    const visible = setup.solids.filter(({ id }) => !HIDDEN.includes(id));
    const pose = solvePose(setup.mechanism, 0, 0);
    if (pose.kind !== 'solved') throw new Error('the pose is out of reach');
    const { eye, pxPerMm, at } = await viewFrom(page, 'outboard', setup, visible, pose.carriers);
    const spot = visibleSpot(eye, visible);
    const { x, y } = at(spot.at);
    await done();
    await expect
      .poll(
        async () => {
          await page.mouse.move(x + 2, y);
          await page.mouse.move(x, y);
          await page.waitForTimeout(250);
          const text = await pointed();
          return text === '' ? Number.NaN : Math.abs(Number(text) - spot.clearanceMm);
        },
        { timeout: 15_000 },
      )
      .toBeLessThan(1 + 1 / pxPerMm);
  });

  it('updates the gap under a resting pointer when the view turns', async () => {
    const { page } = bench;
    const before = await pointed();
    expect(before).not.toBe('');
    await page.getByRole('button', { name: 'Top', exact: true }).press('Enter');
    await expect.poll(pointed, { timeout: 10_000 }).not.toBe(before);
  });

  it('drops its results when the pose changes, and measures again', async () => {
    const { page } = bench;
    await page.getByRole('slider', { name: 'Travel', exact: true }).focus();
    await page.keyboard.press('ArrowUp');
    expect(await legend().getByRole('status').getAttribute('data-shading')).not.toBe('done');
    await done();
  });

  it('disappears when it is switched off', async () => {
    const { page } = bench;
    await page.getByRole('button', { name: 'Gap tint', exact: true }).click();
    await legend().waitFor({ state: 'detached' });
  });

  it('shows that its worker does not run', async () => {
    const page = await bench.open((fresh) => fresh.route(/shadingWorker/, (route) => route.abort()));
    await page.getByRole('button', { name: 'Gap tint', exact: true }).click();
    await page.getByText('The surfaces cannot be measured: its script could not be loaded').waitFor();
    await page.context().close();
  });
});
