import { execFile } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { unzipSync } from 'fflate';
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import type { Locator } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { COARSE } from '../app/coarse/settings.ts';
import { demoText } from '../app/coarse/setUpCoarse.ts';
import { onWorkbench } from './onWorkbench.ts';
import { savedReport } from './savedReport.ts';

const ROOT = resolve(import.meta.dirname, '../..');

/** The river racer with the parts around the wheel: each form of the report has something to show, in half of the time. */
const PARTS = ['wheel', 'tyre', 'hub', 'rotor', 'caliper', 'upright', 'lowerArm', 'tieRod', 'tieRodEnd'];
const CORNER = partsOfDemo();

function partsOfDemo(): string {
  const demo: { parts: { id: string }[]; pairs: { between: string[] }[] } = JSON.parse(
    demoText('gravelbeck'),
  );
  return JSON.stringify({
    ...demo,
    parts: demo.parts.filter(({ id }) => PARTS.includes(id)),
    pairs: demo.pairs.filter(({ between }) => between.every((id) => PARTS.includes(id.split('.')[0]))),
  });
}

/** The settings of the page. */
const SETTINGS = [
  ['--travel-steps', COARSE.travelSteps],
  ['--steer-steps', COARSE.steerSteps],
  ['--chord', COARSE.chordToleranceMm],
].flatMap(([name, value]) => [`${name}`, `${value}`]);

interface Results {
  travelMm: number[];
  steer: number[];
  pairs: { a: string; b: string; clearanceMm: (number | null)[] }[];
}

/** Runs a command on the corner, which exits with 1 because of a contact; returns a file that it wrote. */
function writtenByCommand(command: string, fileName: string): Promise<string> {
  const args = [
    join(ROOT, 'src/cli/daylight.js'),
    command,
    file,
    '--out',
    folder,
    '--unit',
    'mm',
    ...SETTINGS,
  ];
  return new Promise((done, fail) => {
    execFile(process.execPath, args, (error) => {
      if (error?.code !== 1) fail(new Error(`${command} ended with ${error?.code}`));
      else done(readFileSync(join(folder, fileName), 'utf8'));
    });
  });
}

const bench = onWorkbench({ corner: CORNER, results: 'made' });
let folder: string;
let file: string;
let results: Results;
let report: string;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'daylight-'));
  file = join(folder, 'bench.corner.json');
  writeFileSync(file, CORNER);
  results = JSON.parse(await writtenByCommand('sweep', 'results.json'));
  report = await writtenByCommand('report', 'report.html');
}, 240_000);

afterAll(async () => {
  rmSync(folder, { recursive: true, force: true });
});

const textOf = async (place: Locator): Promise<string> => (await place.textContent()) ?? '';

/** Value and error of "−4.32 ± 0.14 mm" in a text. */
function shownMm(text: string): number {
  const match = text.match(/([−-]?[\d.]+) ± ([\d.]+) mm/);
  return match === null ? Number.NaN : Number(match[1].replace('−', '-'));
}

function commandMm(idA: string, idB: string, travelIndex: number, steerIndex: number): number {
  const pair = results.pairs.find(({ a, b }) => (a === idA && b === idB) || (a === idB && b === idA));
  const value = pair?.clearanceMm[travelIndex * results.steer.length + steerIndex];
  if (typeof value !== 'number') throw new Error(`no clearance of ${idA} and ${idB} in the results`);
  return value;
}

/** The screen rounds down to 0.01. */
const agrees = (shown: number, exact: number): boolean => shown <= exact + 1e-6 && shown > exact - 0.011;

it('the rules and the report agree with the command line', async () => {
  const { page } = bench;
  const travel = page.getByRole('slider', { name: 'Travel', exact: true });
  const steer = page.getByRole('slider', { name: 'Steer', exact: true });
  const notice = page.locator('.pose-notice');
  // A corner opens with the unit of its file.
  await page.getByRole('button', { name: 'mm', exact: true }).click();

  const worst = page.getByRole('listbox', { name: 'Pairs by margin' }).getByRole('option').first();
  expect(await textOf(worst)).toMatch(/Wheel 16 × 8 ↔ Tie-rod end/);
  await worst.click();
  // The dimension of the previous pose is shown as stale until the new pose is measured.
  await page.locator('[data-testid=dimension]:not([data-stale])').filter({ hasText: 'touches' }).waitFor();

  const top = results.travelMm.length - 1;
  const left = results.steer.length - 1;
  const settles = async (travelIndex: number, steerIndex: number) => {
    const exact = commandMm('wheel', 'tieRodEnd', travelIndex, steerIndex);
    const shown = async () => agrees(shownMm(await textOf(notice)), exact);
    await expect.poll(shown, { timeout: 20_000, message: `${exact} mm on the screen` }).toBe(true);
  };
  const seen = new Set<number>();
  const visit = async (rule: Locator, key: string, travelIndex: number, steerIndex: number) => {
    await rule.focus();
    await page.keyboard.press(key);
    await settles(travelIndex, steerIndex);
    seen.add(shownMm(await textOf(notice)));
  };
  await settles(0, left);
  await visit(steer, 'End', 0, 0);
  await visit(travel, 'End', top, 0);
  await visit(steer, 'Home', top, left);
  await visit(travel, 'Home', 0, left);
  expect(seen.size).toBe(4);

  const download = await savedReport(page, 'made');
  const saved = join(folder, 'saved.html');
  await download.saveAs(saved);
  const undated = (html: string) => html.replaceAll(/\d{4}-\d\d-\d\dT[\d:.]+Z/g, 'DATE');
  expect(undated(readFileSync(saved, 'utf8'))).toBe(undated(report));

  const savedAs = async (form: string): Promise<Uint8Array> => {
    const [file] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('combobox', { name: 'Report in another form' }).selectOption(form),
    ]);
    const path = join(folder, file.suggestedFilename());
    await file.saveAs(path);
    return new Uint8Array(readFileSync(path));
  };
  const tables = unzipSync(await savedAs('Tables as CSV'));
  expect(Object.keys(tables).sort()).toEqual(['alignment.csv', 'inputs.csv', 'limits.csv', 'pairs.csv']);
  for (const [name, bytes] of Object.entries(tables))
    expect(Buffer.from(bytes).toString(), name).toBe(readFileSync(join(folder, name), 'utf8'));
  const pdf = await getDocument({ data: await savedAs('PDF, Letter'), verbosity: 0 }).promise;
  const first = await pdf.getPage(1);
  expect(first.view).toEqual([0, 0, 612, 792]);
  const { items } = await first.getTextContent();
  expect(items.map((item) => ('str' in item ? item.str : '')).join(' ')).toContain('The tightest pairs');
  const drawings = await getDocument({ data: await savedAs('Drawings as PDF, A4'), verbosity: 0 }).promise;
  expect(drawings.numPages).toBe(4);
});
