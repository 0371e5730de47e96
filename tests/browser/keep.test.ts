import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { wheelCorner } from '../design/fixtures.ts';
import { draftKept } from './draftKept.ts';
import { chooseFile, toPartsList, typeWheelWidth } from './onWorkbench.ts';
import { coarsePage, connectBrowser, VIEW } from './opened.ts';

let browser: Browser;
let context: BrowserContext;
/** A page without access to files, for the tests of saving one after another. */
let withoutPickers: Page;

beforeAll(async () => {
  browser = await connectBrowser();
  context = await browser.newContext(VIEW);
});

afterAll(async () => {
  await browser?.close();
});

async function openPage(before: () => void = () => {}): Promise<Page> {
  const page = await context.newPage();
  await page.addInitScript(before);
  await page.goto(coarsePage({ results: 'recorded', picture: 'blank', open: 'none' }));
  // The first page asks; the others of the context know the answer.
  const cautions = page.getByRole('button', { name: 'I have read this' });
  await page.getByRole('button', { name: 'New corner' }).waitFor({ timeout: 60_000 });
  if (await cautions.isVisible()) await cautions.click();
  return page;
}

/** Opens a corner for one test, without the drafts of other tests. */
async function openCorner(page: Page, name: string): Promise<void> {
  const text = JSON.stringify({ ...wheelCorner(), name });
  await chooseFile(page, `${name}.corner.json`, text);
  await page.getByRole('heading', { level: 1, name: `${name}, left side` }).waitFor({ timeout: 60_000 });
}

/** Types a width into the sheet of the wheel. */
async function changeWheel(page: Page, text: string): Promise<void> {
  await typeWheelWidth(page, text);
  await page.getByRole('button', { name: 'Save • changes' }).waitFor();
}

it('opens a dropped corner with the file beside it, and keeps both, its changes and its view after a reload', async () => {
  const page = await openPage();
  const text = JSON.stringify({ ...wheelCorner(), name: 'Dropped', assets: ['bracket.stl'] });
  await page.evaluate((corner) => {
    const dataTransfer = new DataTransfer();
    dataTransfer.items.add(new File(['solid'], 'bracket.stl'));
    dataTransfer.items.add(new File([corner], 'Dropped.corner.json'));
    dispatchEvent(new DragEvent('drop', { dataTransfer, cancelable: true }));
  }, text);
  const heading = page.getByRole('heading', { level: 1, name: 'Dropped, left side' });
  await heading.waitFor({ timeout: 60_000 });
  await changeWheel(page, '8 1/2 in ±1/32');
  await page.getByRole('button', { name: 'in', exact: true }).click();
  await page.getByRole('button', { name: 'Theme: auto' }).click();
  const edge = () => page.getByRole('separator', { name: 'Width of the left column' });
  await edge().press('ArrowRight');
  const leftWidth = await edge().getAttribute('aria-valuetext');
  const travel = () => page.getByRole('slider', { name: 'Travel', exact: true });
  await travel().focus();
  await page.keyboard.press('End');
  await page.getByRole('button', { name: 'Top', exact: true }).click();
  const camera = () =>
    page.evaluate(() => {
      sessionStorage.removeItem('daylight-look');
      dispatchEvent(new Event('pagehide'));
      return JSON.parse(sessionStorage.getItem('daylight-look') ?? '{}').camera;
    });
  const fromAbove = () =>
    expect.poll(async () => (await camera())?.eye[2], { timeout: 20_000 }).toBeGreaterThan(0.9);
  await fromAbove();
  await draftKept(page, '8 1/2 in ±1/32');
  page.on('dialog', (dialog) => void dialog.accept());
  await page.reload();
  await heading.waitFor({ timeout: 60_000 });
  // The view is kept as well.
  await expect.poll(() => travel().getAttribute('aria-valuetext'), { timeout: 20_000 }).toBe('bump +2.36 in');
  await page.getByRole('button', { name: 'Theme: light' }).waitFor();
  expect(await edge().getAttribute('aria-valuetext')).toBe(leftWidth);
  expect(leftWidth).toMatch(/^\d+ px$/);
  await fromAbove();
  await page.getByRole('button', { name: 'Save • changes' }).waitFor();
  await page
    .getByRole('button')
    .filter({ hasText: /^wheel/ })
    .first()
    .click();
  expect(await page.getByLabel('Width', { exact: true }).inputValue()).toBe('8 1/2 in ±1/32');
  await toPartsList(page);
  await page.getByRole('button', { name: 'Corner and pair rules' }).click();
  await page.getByText('bracket.stl, 5 bytes').waitFor();
  await page.close();
});

it('keeps a wrong value with its problem and its history over several reloads', async () => {
  const page = await openPage();
  await openCorner(page, 'Wrong');
  await changeWheel(page, '8 1/4 in');
  const width = page.getByLabel('Width', { exact: true });
  await page.waitForTimeout(1000);
  await width.fill('abc');
  await width.press('Enter');
  const messages: string[] = [];
  page.on('dialog', (dialog) => {
    messages.push(dialog.message());
    void (dialog.type() === 'beforeunload' ? dialog.accept() : dialog.dismiss());
  });
  for (let reload = 0; reload < 2; reload++) {
    // The draft is written by now, even if the engine has not answered yet: at most the last second is lost.
    await page.waitForTimeout(1500);
    await page.reload();
    await page.getByRole('heading', { level: 1, name: 'Wrong, left side' }).waitFor({ timeout: 60_000 });
    await page
      .getByRole('button')
      .filter({ hasText: /^wheel/ })
      .first()
      .click();
    await expect.poll(() => width.inputValue()).toBe('abc');
    expect(await page.getByRole('alert').first().textContent()).toContain('"abc" is not a length');
    await page.getByRole('button', { name: 'Undo wheel, width: abc' }).waitFor();
    expect(await page.getByRole('dialog').count()).toBe(0);
  }
  messages.length = 0;
  await page.getByRole('combobox', { name: 'Open an example or recent corner' }).selectOption({ index: 1 });
  expect(messages.join()).toContain('The changes to Wrong.corner.json are not saved');
  await page.getByRole('button', { name: 'Undo wheel, width: abc' }).click();
  await expect.poll(() => width.inputValue()).toBe('8 1/4 in');
  await page.getByRole('button', { name: 'Undo wheel, width: 8 1/4 in' }).click();
  await page.getByRole('button', { name: 'Save', exact: true }).waitFor();
  await page.close();
});

it('opens a file with wrong values for repair, and draws it once they are corrected', async () => {
  const page = await openPage();
  await openCorner(page, 'Before');
  const corner = wheelCorner();
  Object.assign(corner.parts[0], { width: 'abc', paint: 'red' });
  await chooseFile(page, 'Repair.corner.json', JSON.stringify({ ...corner, name: 'Repair' }));
  const dialog = page.getByRole('dialog', { name: 'Repair.corner.json has wrong values' });
  await dialog.waitFor({ timeout: 60_000 });
  expect(await dialog.textContent()).toContain('Before stays open');
  await dialog.getByRole('button', { name: 'Open for repair' }).click();
  const panel = page.getByRole('complementary', { name: 'Wrong values' });
  await panel.getByText('2 values are wrong.').waitFor({ timeout: 60_000 });
  const width = panel.getByLabel('Width', { exact: true });
  expect(await width.inputValue()).toBe('abc');
  expect(await width.getAttribute('aria-invalid')).toBe('true');
  page.on('dialog', (dialog) => void dialog.accept());
  await draftKept(page, '"paint":"red"');
  await page.reload();
  await panel.getByText('2 values are wrong.').waitFor({ timeout: 60_000 });
  await width.fill('8 in');
  await width.press('Enter');
  await panel.getByText('1 value is wrong.').waitFor();
  await panel.getByRole('button', { name: 'Remove parts[0].paint' }).click();
  await page.getByRole('heading', { level: 1, name: 'Repair, left side' }).waitFor({ timeout: 60_000 });
  await page.getByRole('button', { name: 'Undo parts[0].paint removed' }).waitFor();
  await page.locator('[data-progress]').waitFor({ timeout: 60_000 });
  await page.close();
});

it('offers the changes of a killed tab in a new tab, and loses at most the last second', async () => {
  const page = await openPage();
  await openCorner(page, 'Killed');
  await changeWheel(page, '8 1/4 in');
  await page.waitForTimeout(1000);
  // A wrong value is kept as typed as well.
  await page.getByLabel('Width', { exact: true }).fill('eight');
  await page.getByLabel('Width', { exact: true }).press('Enter');
  await page.waitForTimeout(1000);
  // A reload does not change the offer.
  page.on('dialog', (dialog) => void dialog.accept());
  await page.reload();
  await page.getByRole('button', { name: 'Undo wheel, width: eight' }).waitFor({ timeout: 60_000 });
  await page.waitForTimeout(1000);
  const cdp = await context.newCDPSession(page);
  void cdp.send('Page.crash').catch(() => {});
  await page.waitForEvent('crash');
  const next = await openPage();
  const notice = next.getByRole('status', { name: 'Drafts and saving' });
  await notice.waitFor({ timeout: 30_000 });
  expect(await notice.textContent()).toContain('Killed.corner.json');
  expect(await notice.textContent()).toContain(': wheel, width: eight.');
  await notice.getByRole('button', { name: 'Open changes' }).click();
  await next.getByRole('heading', { level: 1, name: 'Killed, left side' }).waitFor({ timeout: 60_000 });
  await next
    .getByRole('button')
    .filter({ hasText: /^wheel/ })
    .first()
    .click();
  await expect.poll(() => next.getByLabel('Width', { exact: true }).inputValue()).toBe('eight');
  await next.close();
});

it('asks before a change is lost, and saves as a download without access to the file', async () => {
  withoutPickers = await openPage(() => {
    for (const name of ['showOpenFilePicker', 'showSaveFilePicker']) Reflect.deleteProperty(window, name);
  });
  const page = withoutPickers;
  await openCorner(page, 'Asked');
  await changeWheel(page, '8 1/4 in');
  const messages: string[] = [];
  page.once('dialog', (dialog) => {
    messages.push(dialog.message());
    void dialog.dismiss();
  });
  await page.getByRole('combobox', { name: 'Open an example or recent corner' }).selectOption({ index: 1 });
  expect(messages.join()).toContain('The changes to Asked.corner.json are not saved');
  await page.getByRole('heading', { level: 1, name: 'Asked, left side' }).waitFor();
  const [download] = await Promise.all([page.waitForEvent('download'), page.keyboard.press('Control+s')]);
  expect(download.suggestedFilename()).toBe('Asked.corner.json');
  const written = await (await download.createReadStream()).toArray();
  const { parts } = JSON.parse(Buffer.concat(written).toString());
  expect(parts[0].width).toBe('8 1/4 in');
  await page.getByRole('button', { name: 'Save', exact: true }).waitFor();
});

it('asks before it saves wrong values, goes to the problem, and saves a marked copy', async () => {
  const page = withoutPickers;
  await openCorner(page, 'Marked');
  await changeWheel(page, 'abc');
  const dialog = page.getByRole('dialog', { name: 'Marked.corner.json has wrong values' });
  await page.keyboard.press('Control+s');
  await dialog.waitFor();
  expect(await dialog.textContent()).toContain('"abc" is not a length');
  await page.getByRole('button', { name: 'Parts list', includeHidden: true }).evaluate((button) => {
    (button as HTMLButtonElement).click();
  });
  await dialog.getByRole('button', { name: 'Go to the problem' }).click();
  const width = page.getByLabel('Width', { exact: true });
  await expect.poll(() => width.evaluate((input) => input === document.activeElement)).toBe(true);
  await page.keyboard.press('Control+s');
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    dialog.getByRole('button', { name: 'Save anyway' }).click(),
  ]);
  expect(download.suggestedFilename()).toBe('Marked.has-problems.corner.json');
  const written = await (await download.createReadStream()).toArray();
  expect(JSON.parse(Buffer.concat(written).toString()).parts[0].width).toBe('abc');
  await page.getByText('Saved with its problems as Marked.has-problems.corner.json.').waitFor();
  // The file itself is not saved yet.
  await page.getByRole('button', { name: 'Save • changes' }).waitFor();
  await page.close();
});

it('asks before it overwrites a file that another tab has changed', async () => {
  // The browser's private file system replaces the disk.
  const chosen = () => {
    const handle = async () => (await navigator.storage.getDirectory()).getFileHandle('shared.corner.json');
    Object.assign(window, { showOpenFilePicker: async () => [await handle()] });
  };
  const text = JSON.stringify({ ...wheelCorner(), name: 'Shared' });
  const openShared = async () => {
    const page = await openPage(chosen);
    await page.evaluate(async (content) => {
      const folder = await navigator.storage.getDirectory();
      const handle = await folder.getFileHandle('shared.corner.json', { create: true });
      if ((await handle.getFile()).size > 0) return;
      const writable = await handle.createWritable();
      await writable.write(content);
      await writable.close();
    }, text);
    await page.keyboard.press('Control+o');
    await page.getByRole('heading', { level: 1, name: 'Shared, left side' }).waitFor({ timeout: 60_000 });
    return page;
  };
  const widthOnDisk = (page: Page) =>
    page.evaluate(async () => {
      const folder = await navigator.storage.getDirectory();
      const file = await (await folder.getFileHandle('shared.corner.json')).getFile();
      return JSON.parse(await file.text()).parts[0].width;
    });
  const [one, other] = [await openShared(), await openShared()];
  await changeWheel(one, '8 1/4 in');
  await one.keyboard.press('Control+s');
  await one.getByRole('button', { name: 'Save', exact: true }).waitFor();
  expect(await widthOnDisk(one)).toBe('8 1/4 in');

  await changeWheel(other, '8 1/2 in');
  const messages: string[] = [];
  const answers = [false, true];
  other.on('dialog', (dialog) => {
    messages.push(dialog.message());
    void (answers[messages.length - 1] ? dialog.accept() : dialog.dismiss());
  });
  await other.keyboard.press('Control+s');
  await expect.poll(() => messages.length, { timeout: 20_000 }).toBe(1);
  expect(messages[0]).toContain('shared.corner.json was changed on the disk since it was opened here');
  expect(await widthOnDisk(other)).toBe('8 1/4 in');
  await other.keyboard.press('Control+s');
  await other.getByRole('button', { name: 'Save', exact: true }).waitFor();
  expect(messages).toHaveLength(2);
  expect(await widthOnDisk(other)).toBe('8 1/2 in');
  await one.close();
  await other.close();
});
