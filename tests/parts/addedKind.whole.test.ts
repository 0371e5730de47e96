import { execFile } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { minimalCorner } from '../design/fixtures.ts';
import { expectSound } from '../solids/solidChecks.ts';

const ROOT = resolve(import.meta.dirname, '../..');
const example = readFileSync(join(ROOT, 'DEVELOPERS.md'), 'utf8');

/** The sources with the kind of the example in DEVELOPERS.md. */
let folder: string;

/** Adds the line of a kind at the end of a registry. */
function register(registry: string, line: string, imported: string): void {
  const path = join(folder, 'src/parts', registry);
  const text = readFileSync(path, 'utf8');
  const added = text.replace(/,\n\};/, `,\n  ${line},\n};`);
  expect(added).not.toBe(text);
  writeFileSync(path, `${imported}\n${added}`);
}

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'daylight-kind-'));
  for (const part of ['src', 'tsconfig.json', 'package.json'])
    cpSync(join(ROOT, part), join(folder, part), { recursive: true });
  symlinkSync(join(ROOT, 'node_modules'), join(folder, 'node_modules'));
  mkdirSync(join(folder, 'src/parts/bumpStop'));
  for (const file of ['kind', 'build', 'workbench']) {
    const block = new RegExp(`\`\`\`ts\\n// bumpStop/${file}\\.ts\\n(.*?)\`\`\``, 's').exec(example);
    writeFileSync(join(folder, `src/parts/bumpStop/${file}.ts`), block?.[1] ?? '');
  }
  register('kinds.ts', 'bumpStop', "import { bumpStop } from './bumpStop/kind.ts';");
  register('builders.ts', 'bumpStop: buildBumpStop', "import { buildBumpStop } from './bumpStop/build.ts';");
  register('plateMakers.ts', 'bumpStop: undefined', '');
  register('workbenchKinds.ts', 'bumpStop', "import { bumpStop } from './bumpStop/workbench.ts';");
  const sketches = join(folder, 'src/app/sheets/parts/sketch/sketchOf.ts');
  const noSketch = readFileSync(sketches, 'utf8').replace(
    'case undefined:',
    "case 'bumpStop':\n    case undefined:",
  );
  writeFileSync(sketches, noSketch);
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Problems that the compiler prints. One thread: several would check the shared types again. */
const compiled = (): Promise<string> =>
  new Promise((done) => {
    const tsc = join(ROOT, 'node_modules/typescript/bin/tsc');
    const args = [tsc, '--noEmit', '--singleThreaded', '--pretty', 'false'];
    execFile(process.execPath, args, { cwd: folder }, (_, printed) => done(printed));
  });

/** A module of the sources with the example. */
const load = <T>(path: string): Promise<T> => import(/* @vite-ignore */ join(folder, 'src', path));

const stop = { kind: 'bumpStop', id: 'stop', foot: [60, 330, 300], tip: [60, 330, 260] };
const withStop = (given: object = {}): string => {
  const corner = minimalCorner();
  return JSON.stringify({ ...corner, parts: [...corner.parts, { ...stop, ...given }] });
};

describe('the kind of part that DEVELOPERS.md adds', () => {
  it('compiles, and does not if a piece is missing', async () => {
    const builders = readFileSync(join(folder, 'src/parts/builders.ts'), 'utf8');
    // A second registry, so that one run of the compiler checks both.
    const without = join(folder, 'src/parts/withoutBumpStop.ts');
    writeFileSync(without, builders.replace(/ {2}bumpStop: .*\n/, '').replace(/^import .*bumpStop.*\n/, ''));
    const problems = (await compiled()).split('\n').filter((line) => line !== '');
    rmSync(without);
    expect(problems).toEqual([
      expect.stringMatching(/^src\/parts\/withoutBumpStop\.ts.*Property 'bumpStop' is missing/),
    ]);
  });

  it('is read, built, swept and reported', async () => {
    const { parseDesign } = await load<typeof import('../../src/design/parse.ts')>('design/parse.ts');
    const { setUp } = await load<typeof import('../../src/sweep/setUp.ts')>('sweep/setUp.ts');
    const { sweepInProcess } =
      await load<typeof import('../../src/executors/inProcess.ts')>('executors/inProcess.ts');
    const { findingsOf } =
      await load<typeof import('../../src/findings/findingsOf.ts')>('findings/findingsOf.ts');
    const wrong = parseDesign(withStop({ tip: undefined, diameter: -1 }));
    expect(wrong.kind === 'bad' && wrong.problems.map(({ path }) => path.replace(/^.*\./, ''))).toEqual([
      'tip',
      'diameter',
    ]);
    const parsed = parseDesign(withStop());
    if (parsed.kind === 'bad') throw new Error(JSON.stringify(parsed.problems));
    const settings = { travelSteps: 3, steerSteps: 3, limitMm: 60, chordToleranceMm: 0.2 };
    const built = await setUp(parsed.design, settings);
    const at = built.solids.findIndex(({ id }) => id === 'stop');
    expectSound(built.solids[at], 'stop');
    expect(built.solids[at].volumeMm3 / (Math.PI * 20 ** 2 * 40)).toBeCloseTo(1, 1);
    const pair = built.pairs.find(({ a, b }) => b === at && built.solids[a].kind === 'tyre');
    expect(pair?.targetMm).toBe(25);
    const findings = findingsOf(await sweepInProcess(built), undefined);
    const found = findings.pairs.filter(({ pair }) => built.pairs[pair].b === at);
    expect(found.length).toBeGreaterThan(5);
    expect(found.map(({ state }) => state)).not.toContain('unknown');
  });

  it('has a sheet with its fields, starting dimensions and a look', async () => {
    const { fieldsAt } = await load<typeof import('../../src/design/fields.ts')>('design/fields.ts');
    const { additions } =
      await load<typeof import('../../src/app/state/partEdits.ts')>('app/state/partEdits.ts');
    const { parseDesign } = await load<typeof import('../../src/design/parse.ts')>('design/parse.ts');
    const source = JSON.parse(withStop());
    const fields = fieldsAt(source, ['parts', source.parts.length - 1]);
    expect(fields.map(({ key, kind }) => `${key} ${kind}`)).toEqual([
      'id text',
      'label text',
      'allowance length',
      'fitted count',
      'carrier choice',
      'kind choice',
      'foot list',
      'tip list',
      'diameter length',
    ]);
    const parsed = parseDesign(withStop());
    if (parsed.kind === 'bad') throw new Error(JSON.stringify(parsed.problems));
    const added = additions(source, parsed.design.corner).find(({ kind }) => kind === ('bumpStop' as string));
    expect(added).toMatchObject({ name: 'Bump stop', id: 'bumpStop', why: undefined });
    const { LOOKS } = await load<typeof import('../../src/app/state/looks.ts')>('app/state/looks.ts');
    expect(LOOKS).toHaveProperty('bumpStop');
  });
});
