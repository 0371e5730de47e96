import { beforeAll, describe, expect, it } from 'vitest';
import type { Corner } from '../../src/design/schema.ts';
import { applyPoint } from '../../src/math/rigid.ts';
import { distance, type Vec3 } from '../../src/math/vec.ts';
import { solvePose } from '../../src/mechanism/mechanism.ts';
import type { Carriers } from '../../src/mechanism/pose.ts';
import type { Setup } from '../../src/sweep/setUp.ts';
import { demoText, setUpCoarse } from '../app/coarse/setUpCoarse.ts';
import { onWorkbench } from './onWorkbench.ts';
import { seenFrom } from './seenFrom.ts';

const INCH = 25.4;
const inches = (...xyz: [number, number, number]) => xyz.map((x) => x * INCH) as unknown as Vec3;
/** Of the demo corner, as its file says: both ends of the damper hoop, and the rear lower edge of the lower rail. */
const HOOP = { foot: inches(-1, 13.5, 21.25), top: inches(-1, 13.5, 38) };
const RAIL_EDGE = { from: inches(-20, 9.25, 10.5), to: inches(-20, 11.25, 10.5) };

const bench = onWorkbench({ demo: 'saltpan' });
let setup: Setup;

const tape = () => bench.page.getByRole('region', { name: 'Tape' });

const corner = (): Corner => setup.design.corner;
function carriersAt(travelMm: number): Carriers {
  const pose = solvePose(setup.mechanism, travelMm, 0);
  if (pose.kind !== 'solved') throw new Error('the pose is out of reach');
  return pose.carriers;
}
const reading = (name: string) => tape().locator('dl div', { hasText: name }).locator('dd');
/** What is shown as `12.34 ± 0.05 mm`. */
async function shown(name: string): Promise<{ value: number; error: number }> {
  const text = (await reading(name).textContent()) ?? '';
  const [, value, error] = /^(−?[\d.]+) ± ([\d.]+)/.exec(text) ?? [];
  return { value: Number(value?.replace('−', '-')), error: Number(error) };
}
async function expectDistance(wantedMm: number): Promise<void> {
  await expect
    .poll(async () => {
      const { value, error } = await shown('Distance');
      return Math.abs(value - wantedMm) <= error;
    })
    .toBe(true);
}

beforeAll(async () => {
  setup = await setUpCoarse(demoText('saltpan'));
  await bench.page.getByRole('button', { name: 'mm', exact: true }).click();
});

/** Picks the option of a part's list whose text begins so and holds `where`, with keys alone. */
async function pickWithKeys(part: string, name: string, where = ''): Promise<void> {
  const { page } = bench;
  await page.getByRole('combobox', { name: 'Part' }).focus();
  // Letter by letter, as a select is searched.
  await page.keyboard.type(part);
  await page.keyboard.press('Tab');
  const list = page.getByRole('listbox', { name: `To measure from on ${part}` });
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
  it('measures between two hole centres with keys alone, and follows the pose', async () => {
    const { page } = bench;
    await page.getByRole('button', { name: 'Tape', exact: true }).focus();
    await page.keyboard.press('Enter');
    await page.getByText('Choose from a list').focus();
    await page.keyboard.press('Enter');
    await pickWithKeys('Lower uniball', 'centre of the lower joint');
    await pickWithKeys('Damper hoop', 'centre of a round edge, Ø 44.45 mm', '965.2');
    const joint = corner().suspension.hardpoints.lowerJoint;
    await expectDistance(distance(joint, HOOP.top));
    expect((await shown('Distance')).error).toBeLessThan(0.05);

    await page.getByRole('slider', { name: 'Travel', exact: true }).focus();
    await page.keyboard.press('End');
    const moved = applyPoint(carriersAt(corner().suspension.travel.bump).lowerArm, joint);
    await expectDistance(distance(moved, HOOP.top));
    const row = page.getByRole('row', { name: /^up/ });
    const up = Number((await row.getByRole('cell').first().textContent())?.split(' ')[0]);
    expect(Math.abs(up - (HOOP.top[2] - moved[2]))).toBeLessThan(0.02);
    await page.getByRole('slider', { name: 'Travel and steer', exact: true }).focus();
    await page.keyboard.press('0');
    await page.keyboard.press('Escape');
    await reading('Distance').waitFor({ state: 'detached' });
  });

  it('measures the same length from both ends of a tube, and a right angle of its end and its side', async () => {
    const { page } = bench;
    await pickWithKeys('Damper hoop', 'centre of a round edge', '539.7');
    await pickWithKeys('Damper hoop', 'centre of a round edge', '965.2');
    await expectDistance(distance(HOOP.foot, HOOP.top));
    await pickWithKeys('Damper hoop', 'flat face', '965.2');
    await pickWithKeys('Damper hoop', 'round side');
    const { value, error } = await shown('Angle');
    expect(Math.abs(value - 90)).toBeLessThanOrEqual(error);
    await page.keyboard.press('Escape');
  });

  it('measures between what is pressed in the view: a hole centre and an edge', async () => {
    const { page } = bench;
    await page.getByRole('button', { name: 'Rear', exact: true }).click();
    const { at } = await seenFrom(page, 'rear', setup, setup.solids, carriersAt(0));
    const press = async (point: Vec3, offered: string) => {
      const { x, y } = at(point);
      const offer = tape().getByRole('status');
      // The view is still turning, and a picture takes its time.
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
    await press(HOOP.top, 'centre of a round edge, Ø 44.45 mm, of Damper hoop');
    await press([RAIL_EDGE.from[0], 10.25 * INCH, RAIL_EDGE.from[2]], 'edge of Lower rail');
    await expectDistance(distance(HOOP.top, RAIL_EDGE.to));
    // The label over the picture says the same.
    const label = page.getByTestId('tape-length');
    await expect
      .poll(async () => (await label.textContent()) === (await reading('Distance').textContent()))
      .toBe(true);
    // No part was taken in hand by it.
    expect(await page.getByRole('button', { name: /^Lower rail/ }).getAttribute('aria-pressed')).toBe(
      'false',
    );
  });

  it('takes what is pressed in its list at the first press, however far down it stands', async () => {
    const { page } = bench;
    await page.keyboard.press('Escape');
    await page.getByRole('combobox', { name: 'Part' }).selectOption({ label: 'Damper hoop' });
    const last = page
      .getByRole('listbox', { name: /^To measure from/ })
      .getByRole('option')
      .last();
    await last.click();
    await page.getByRole('button', { name: /^Let go of .* of Damper hoop$/ }).waitFor({ timeout: 5000 });
  });

  it('is put away by Escape once it is let go', async () => {
    const { page } = bench;
    await page.keyboard.press('Escape');
    await tape().waitFor();
    await page.keyboard.press('Escape');
    await tape().waitFor({ state: 'detached' });
    expect(await page.getByRole('button', { name: 'Tape', exact: true }).getAttribute('aria-pressed')).toBe(
      'false',
    );
  });

  it('tells that its worker does not run', async () => {
    const page = await bench.open((fresh) => fresh.route(/tapeWorker/, (route) => route.abort()));
    await page.getByRole('button', { name: 'Tape', exact: true }).click();
    await page.getByText('The parts cannot be read: its script could not be loaded').waitFor();
    await page.context().close();
  });
});
