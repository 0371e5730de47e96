import { readFileSync } from 'node:fs';
import { AxeBuilder } from '@axe-core/playwright';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readBody } from '../../src/app/tape/readBody.ts';
import { frame, screenAxes } from '../../src/app/viewer/frame.ts';
import { eyeDirection } from '../../src/app/viewer/standpoint.ts';
import { atPoint, clearanceAt, type Neighbour, outsideCutZones } from '../../src/clearance/pointClearance.ts';
import { measure } from '../../src/clearance/query.ts';
import { parseDesign } from '../../src/design/parse.ts';
import { identity } from '../../src/math/rigid.ts';
import { add, addScaled, cross, dot, length, scale, sub, type Vec3 } from '../../src/math/vec.ts';
import { spinAxis } from '../../src/mechanism/spinAxis.ts';
import type { Solid } from '../../src/solids/solid.ts';
import { type Setup, setUp } from '../../src/sweep/setUp.ts';
import { COARSE } from '../app/coarse/settings.ts';
import { launchChromium } from './chromium.ts';
import { type Served, serveWorkbench } from './server.ts';

let served: Served;
let browser: Browser;
let page: Page;
let setup: Setup;
const errors: string[] = [];

const legend = () => page.getByRole('region', { name: 'Gap tint' });
const done = () => page.locator('[data-shading=done]').waitFor({ timeout: 60_000 });

beforeAll(async () => {
  const text = readFileSync(new URL('../../demo-data/saltpan.corner.json', import.meta.url), 'utf8');
  const parsed = parseDesign(text);
  if (parsed.kind === 'bad') throw new Error('the demo corner is not sound');
  setup = await setUp(parsed.design, COARSE);
  served = await serveWorkbench();
  browser = await launchChromium();
  page = await (await browser.newContext({ viewport: { width: 1440, height: 900 } })).newPage();
  page.on('pageerror', (error) => errors.push(error.message));
  await page.goto(new URL('/tests/app/coarse/index.html?demo=saltpan', served.url).href);
  await page.getByRole('button', { name: 'I have read this' }).click({ timeout: 60_000 });
  await page.locator('[data-progress=done]').waitFor({ timeout: 120_000 });
  await page.getByRole('button', { name: 'mm', exact: true }).click();
});

afterAll(async () => {
  await browser?.close();
  await served?.close();
});

const HIDDEN = ['wheel', 'tyre'];

/** The middle of a triangle that looks at the eye, with nothing in the way, at most 8 mm from another part. */
function spotSeenFrom(eye: Vec3, seen: readonly Solid[]): { at: Vec3; clearanceMm: number } {
  const bodies = seen.map(({ mesh, chordErrorMm }) => readBody(mesh, chordErrorMm));
  for (const solid of seen) {
    const index = setup.solids.indexOf(solid);
    const neighbours = setup.pairs.flatMap(({ a, b, zones }, pair): Neighbour[] => {
      const body = a === index ? setup.bodies[pair].b : b === index ? setup.bodies[pair].a : undefined;
      const outsideZonesMm = outsideCutZones(zones, solid.chordErrorMm);
      const more = { neighbourFromThis: identity(), outsideZonesMm, wantedMm: 0, mayOverlap: false };
      return body === undefined ? [] : [{ body, ...more }];
    });
    const { positions: p, triangles } = solid.mesh;
    for (let t = 0; t < triangles.length; t += 3) {
      const [a, b, c] = [0, 1, 2].map((k): Vec3 => {
        const v = 3 * triangles[t + k];
        return [p[v], p[v + 1], p[v + 2]];
      });
      const square = cross(sub(b, a), sub(c, a));
      // Large enough to be pointed at, and not seen edge-on.
      if (length(square) < 60 || dot(square, eye) < 0.7 * length(square)) continue;
      const at = scale(add(add(a, b), c), 1 / 3);
      clearanceAt(neighbours, ...at, 30);
      const { clearanceMm, nearest } = atPoint;
      if (nearest < 0 || clearanceMm > 8) continue;
      if (bodies.every((body) => body.meet(addScaled(at, eye, 0.01), eye) === undefined))
        return { at, clearanceMm };
    }
  }
  throw new Error('no such spot can be seen');
}

describe('the gap tint', () => {
  it('shows its legend, and as its least what the pairs have at this pose', async () => {
    await page.getByRole('button', { name: 'Gap tint', exact: true }).click();
    await legend().waitFor();
    await done();
    const said = (await legend().textContent()) ?? '';
    const [, least] = /(−?[\d.]+) mm least/.exec(said) ?? [];
    const [, between] = /± ([\d.]+) mm between samples/.exec(said) ?? [];
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
      await page.emulateMedia({ colorScheme });
      const { violations, passes } = await new AxeBuilder({ page }).include('.shade-legend').analyze();
      expect(passes.length).toBeGreaterThan(3);
      expect(violations.map(({ id, help }) => `${id} (${help})`)).toEqual([]);
      await page.emulateMedia({ colorScheme: 'light' });
    },
  );

  it('reads under the pointer what the part is from the nearest other one', async () => {
    for (const { id, label } of setup.solids)
      if (HIDDEN.includes(id)) await page.getByRole('button', { name: `Show ${label}` }).click();
    await page.getByRole('button', { name: 'Outboard', exact: true }).click();
    const view = await page.getByLabel('The corner in three dimensions').boundingBox();
    if (view === null) throw new Error('there is no view');
    const eye = eyeDirection('outboard', 'left', spinAxis(setup.design.corner.suspension));
    const seen = setup.solids.filter(({ id }) => !HIDDEN.includes(id));
    const points = seen
      .filter(({ carrier }) => carrier !== 'chassis')
      .flatMap(({ mesh: { positions: p } }) =>
        Array.from({ length: p.length / 3 }, (_, v): Vec3 => [p[3 * v], p[3 * v + 1], p[3 * v + 2]]),
      );
    const { target, pxPerMm } = frame(points, eye, view.width, view.height, 0.86);
    const { right, up } = screenAxes(eye);
    const spot = spotSeenFrom(eye, seen);
    const x = view.x + view.width / 2 + pxPerMm * dot(sub(spot.at, target), right);
    const y = view.y + view.height / 2 - pxPerMm * dot(sub(spot.at, target), up);
    await done();
    await expect
      .poll(
        async () => {
          await page.mouse.move(x + 2, y);
          await page.mouse.move(x, y);
          await page.waitForTimeout(250);
          const told = (await page.getByTestId('pointed').textContent()) ?? '';
          return told === '' ? Number.NaN : Math.abs(Number(told) - spot.clearanceMm);
        },
        { timeout: 15_000 },
      )
      .toBeLessThan(1 + 1 / pxPerMm);
  });

  it('drops what it has measured the moment the pose moves on, and measures anew', async () => {
    await page.getByRole('slider', { name: 'Travel', exact: true }).focus();
    await page.keyboard.press('ArrowUp');
    expect(await legend().getByRole('status').getAttribute('data-shading')).not.toBe('done');
    await done();
  });

  it('goes with its switch', async () => {
    await page.getByRole('button', { name: 'Gap tint', exact: true }).click();
    await legend().waitFor({ state: 'detached' });
  });

  it('met no error on the way', () => {
    expect(errors).toEqual([]);
  });
});
