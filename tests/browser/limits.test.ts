/** Joints and damper on the workbench, compared with the engine outside the browser. */
import type { Locator } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import { poseBrief } from '../../src/app/kit/words.ts';
import { type LimitFinding, limitFindings } from '../../src/findings/limitFindings.ts';
import { limitsOf } from '../../src/proof/limits.ts';
import { figuresIn } from '../../src/report/figures.ts';
import { limitAllowed, limitName, limitUsed } from '../../src/report/limitRows.ts';
import type { Setup } from '../../src/sweep/setUp.ts';
import { setUpCoarse } from '../app/coarse/setUpCoarse.ts';
import { minimalCorner } from '../design/fixtures.ts';
import { onWorkbench } from './onWorkbench.ts';

/** The test corner with a small allowed tilt of the lower uniball. */
function cornerText(): string {
  const corner = minimalCorner();
  const joint = corner.parts.find(({ kind }) => kind === 'joint');
  return JSON.stringify({
    ...corner,
    parts: corner.parts.map((part) => (part === joint ? { ...part, allowedTiltDeg: 4 } : part)),
  });
}

const CORNER = cornerText();
const bench = onWorkbench({ corner: CORNER });
const figures = figuresIn('mm');
let setup: Setup;
let limits: LimitFinding[];

const list = (): Locator => bench.page.getByRole('listbox', { name: 'Joints and damper' });
const rows = () => list().getByRole('option');
const headline = async () => (await bench.page.locator('.readout h2').textContent()) ?? '';

beforeAll(async () => {
  setup = await setUpCoarse(CORNER);
  const { design, mechanism, travelMm, steer } = setup;
  limits = limitFindings(limitsOf(design.corner, mechanism, travelMm, steer));
});

describe('joints and damper', () => {
  it('are listed with what they use of what they allow, binding ones first', async () => {
    expect(limits[0].state).toBe('binds');
    const texts = await rows().allTextContents();
    expect(texts).toHaveLength(limits.length);
    for (const [i, limit] of limits.entries()) {
      expect(texts[i]).toContain(limitName(limit));
      expect(texts[i]).toContain(limit.state);
      expect(texts[i]).toContain(limitUsed(limit, figures));
      if (limit.allowed !== undefined) expect(texts[i]).toContain(`of ${limitAllowed(limit, figures)}`);
    }
  });

  it('are counted in the header, and hatched on the map', async () => {
    const binds = limits.filter(({ state }) => state === 'binds').length;
    const status = await bench.page.getByTestId('sweep-status').textContent();
    expect(status).toContain(`${binds} ${binds === 1 ? 'binds' : 'bind'}`);
    await expect.poll(() => bench.page.locator('.map-key').textContent()).toContain('joint or damper binds');
  });

  it('move the corner to their worst pose, by mouse and by keys', async () => {
    const briefOf = ({ worst }: LimitFinding) =>
      worst === undefined ? '' : poseBrief(setup.design.corner, worst.travelMm, worst.steer, figures);
    await rows().first().click();
    await expect.poll(headline).toBe(briefOf(limits[0]));
    expect(await rows().first().getAttribute('aria-selected')).toBe('true');
    await list().focus();
    await bench.page.keyboard.press('End');
    await expect.poll(headline).toBe(briefOf(limits[limits.length - 1]));
    await bench.page.keyboard.press('Home');
    await expect.poll(headline).toBe(briefOf(limits[0]));
    // The description of the view names it as well.
    await expect
      .poll(() => bench.page.locator('.unseen').allTextContents())
      .toEqual(expect.arrayContaining([expect.stringContaining(`${limits[0].label} binds`)]));
  });
});
