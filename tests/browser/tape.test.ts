import { beforeAll, describe, expect, it } from 'vitest';
import type { Corner } from '../../src/design/schema.ts';
import { applyPoint } from '../../src/math/rigid.ts';
import { distance, type Vec3 } from '../../src/math/vec.ts';
import { solvePose } from '../../src/mechanism/mechanism.ts';
import type { Carriers } from '../../src/mechanism/pose.ts';
import type { Setup } from '../../src/sweep/setUp.ts';
import { demoText, setUpCoarse } from '../app/coarse/setUpCoarse.ts';
import { onWorkbench } from './onWorkbench.ts';
import { viewFrom } from './viewFrom.ts';

const INCH = 25.4;
const inches = (...xyz: [number, number, number]) => xyz.map((x) => x * INCH) as unknown as Vec3;
/** From the demo corner's file: both ends of the damper post, and the rear lower edge of the sill. */
const POST = { foot: inches(-0.5, 12.5, 19.5), top: inches(-0.5, 12.5, 35.5) };
const SILL_EDGE = { from: inches(-18.5, 8.25, 9.75), to: inches(-18.5, 10.25, 9.75) };

const bench = onWorkbench({ demo: 'gravelbeck', context: { reducedMotion: 'no-preference' } });
let setup: Setup;

const tape = () => bench.page.getByRole('region', { name: 'Tape' });

const corner = (): Corner => setup.design.corner;
function carriersAt(travelMm: number): Carriers {
  const pose = solvePose(setup.mechanism, travelMm, 0);
  if (pose.kind !== 'solved') throw new Error('the pose is out of reach');
  return pose.carriers;
}
const reading = (name: string) => tape().locator('dl div', { hasText: name }).locator('dd');
/** Value and error of a reading such as `12.34 ± 0.05 mm`. */
async function shown(name: string): Promise<{ value: number; error: number }> {
  const text = (await reading(name).textContent()) ?? '';
  const [, value, error] = /^(−?[\d.]+) ± ([\d.]+)/.exec(text) ?? [];
  return { value: Number(value?.replace('−', '-')), error: Number(error) };
}
async function expectDistance(requiredMm: number): Promise<void> {
  await expect
    .poll(async () => {
      const { value, error } = await shown('Distance');
      return Math.abs(value - requiredMm) <= error;
    })
    .toBe(true);
}

beforeAll(async () => {
  setup = await setUpCoarse(demoText('gravelbeck'));
  await bench.page.getByRole('button', { name: 'mm', exact: true }).click();
});

/** Picks by keyboard the option of a part's list whose text starts with `name` and contains `where`. */
async function pickWithKeys(part: string, name: string, where = ''): Promise<void> {
  const { page } = bench;
  await page.getByRole('combobox', { name: 'Part' }).focus();
  // A select is searched letter by letter.
  await page.keyboard.type(part);
  await page.keyboard.press('Tab');
  const list = page.getByRole('listbox', { name: `Features of ${part}` });
  const options = list.getByRole('option');
  await options.filter({ hasText: name }).first().waitFor({ timeout: 20_000 });
  await page.keyboard.press('Home');
  const texts = await options.allTextContents();
  const at = texts.findIndex((text) => text.startsWith(name) && text.includes(where));
  expect(at, `${name} ${where} among ${texts.join('; ')}`).toBeGreaterThanOrEqual(0);
  for (let i = 0; i < at; i++) await page.keyboard.press('ArrowDown');
  expect(await tape().getByRole('status').textContent()).toContain(name);
  await page.keyboard.press('Enter');
}

describe('the tape', () => {
  it('measures between two hole centres by keyboard alone, and follows the pose', async () => {
    const { page } = bench;
    await page.getByRole('button', { name: 'Tape', exact: true }).focus();
    await page.keyboard.press('Enter');
    await page.getByText('Choose from list').focus();
    await page.keyboard.press('Enter');
    await pickWithKeys('Lower ball joint', 'centre of the lower joint');
    await pickWithKeys('Damper post', 'centre of a round edge, Ø 41.28 mm', '901.7');
    const joint = corner().suspension.hardpoints.lowerJoint;
    await expectDistance(distance(joint, POST.top));
    expect((await shown('Distance')).error).toBeLessThan(0.05);

    await page.getByRole('slider', { name: 'Travel', exact: true }).focus();
    await page.keyboard.press('End');
    const moved = applyPoint(carriersAt(corner().suspension.travel.bump).lowerArm, joint);
    await expectDistance(distance(moved, POST.top));
    const row = page.getByRole('row', { name: /^up/ });
    const up = Number((await row.getByRole('cell').first().textContent())?.split(' ')[0]);
    expect(Math.abs(up - (POST.top[2] - moved[2]))).toBeLessThan(0.02);
    await page.getByRole('slider', { name: 'Travel and steer', exact: true }).focus();
    await page.keyboard.press('0');
    await page.keyboard.press('Escape');
    await reading('Distance').waitFor({ state: 'detached' });
  });

  it('measures the length of a tube between its ends, and a right angle between its end and its side', async () => {
    const { page } = bench;
    await pickWithKeys('Damper post', 'centre of a round edge', '495.3');
    await pickWithKeys('Damper post', 'centre of a round edge', '901.7');
    await expectDistance(distance(POST.foot, POST.top));
    await pickWithKeys('Damper post', 'flat face', '901.7');
    await pickWithKeys('Damper post', 'round side');
    const { value, error } = await shown('Angle');
    expect(Math.abs(value - 90)).toBeLessThanOrEqual(error);
    await page.keyboard.press('Escape');
  });

  it('measures between a hole centre and an edge picked in the view', async () => {
    const { page } = bench;
    await page.getByRole('button', { name: 'Rear', exact: true }).click();
    const { at } = await viewFrom(page, 'rear', setup, setup.solids, carriersAt(0));
    const press = async (point: Vec3, offered: string) => {
      const { x, y } = at(point);
      const offer = tape().getByRole('status');
      // The page may still be reading the parts' features.
      await expect
        .poll(async () => {
          await page.mouse.move(x + 1, y);
          await page.mouse.move(x, y);
          await page.waitForTimeout(200);
          return offer.textContent();
        })
        .toBe(offered);
      await page.mouse.click(x, y);
    };
    await press(POST.top, 'centre of a round edge, Ø 41.28 mm, of Damper post');
    await press([SILL_EDGE.from[0], 9.25 * INCH, SILL_EDGE.from[2]], 'edge of Sill');
    await expectDistance(distance(POST.top, SILL_EDGE.to));
    // The label over the picture shows the same length.
    const label = page.getByTestId('tape-length');
    await expect
      .poll(async () => (await label.textContent()) === (await reading('Distance').textContent()))
      .toBe(true);
    // Picking does not select the part.
    expect(await page.getByRole('button', { name: /^Sill/ }).getAttribute('aria-pressed')).toBe('false');
  });

  it('picks the last entry of its list at the first press', async () => {
    const { page } = bench;
    await page.keyboard.press('Escape');
    await page.getByRole('combobox', { name: 'Part' }).selectOption({ label: 'Damper post' });
    const last = page
      .getByRole('listbox', { name: /^Features of/ })
      .getByRole('option')
      .last();
    await last.click();
    await page.getByRole('button', { name: /^Remove .* of Damper post$/ }).waitFor({ timeout: 5000 });
  });

  it('removes its picks at the first Escape and closes at the next', async () => {
    const { page } = bench;
    await page.keyboard.press('Escape');
    await tape().waitFor();
    await page.keyboard.press('Escape');
    await tape().waitFor({ state: 'detached' });
    expect(await page.getByRole('button', { name: 'Tape', exact: true }).getAttribute('aria-pressed')).toBe(
      'false',
    );
  });

  it('shows that its worker does not run', async () => {
    const page = await bench.open((fresh) => fresh.route(/tapeWorker/, (route) => route.abort()));
    await page.getByRole('button', { name: 'Tape', exact: true }).click();
    await page.getByText('The features cannot be found: its script could not be loaded').waitFor();
    await page.context().close();
  });
});
