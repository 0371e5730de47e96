import { mkdir, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { basename, dirname, join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Plugin } from 'esbuild';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { bundle } from '../../src/cli/build.js';
import { daylight, newFolder, textFile } from '../cli/run.ts';
import { ARM_MM, LOCK_DEG, OFFSET_MM, trailingCorner } from './trailingArm/corner.ts';
import { testRegistryFor } from './withTestRegistry.ts';

const registry: Plugin = {
  name: 'registry-of-tests',
  setup(build) {
    build.onResolve({ filter: /registry\.ts$/ }, ({ path, importer }) => {
      const replaced = testRegistryFor(resolve(dirname(importer), path));
      return replaced === undefined ? undefined : { path: replaced };
    });
  },
};

/** As many steps as needed to find the pairs that come near each other. */
const STEPS = ['--travel-steps', '5', '--steer-steps', '5', '--chord', '0.2'];
const BUILT = resolve(import.meta.dirname, '../../built');

let program: string;
let folder: string;
beforeAll(async () => {
  // In the program's own folder, so that its threads find the modules that are not bundled.
  await mkdir(BUILT, { recursive: true });
  folder = await mkdtemp(join(BUILT, '.layout-'));
  const { outputFiles } = await bundle([registry]);
  for (const { path, contents } of outputFiles) await writeFile(join(folder, basename(path)), contents);
  program = pathToFileURL(join(folder, 'daylight.js')).href;
});
afterAll(() => rm(folder, { recursive: true, force: true }));

const run = (args: string[]) => daylight(args, program);
const corner = () => textFile(JSON.stringify(trailingCorner()));

describe('the command line with a trailing arm', () => {
  it('checks it at ride height', async () => {
    const { stdout, stderr } = await run(['check', corner(), '--all']);
    expect(stderr).toBe('');
    expect(stdout).toMatch(/Kingpin/);
    expect(stdout).not.toMatch(/rack|lower arm|tie rod/i);
  });

  it('draws it, with the dimensions that it has', async () => {
    const out = newFolder();
    const { stderr, code } = await run(['drawings', corner(), '--out', out]);
    expect([code, stderr]).toEqual([0, '']);
    const front = await readFile(join(out, 'front.svg'), 'utf8');
    // The wheel is upright, because the file leaves out camber and toe: its contact centre is below the wheel centre.
    expect(front).toContain(`Scrub radius ${OFFSET_MM}*<`);
    expect(front).toContain('Kingpin inclination 0°');
    expect(front).not.toMatch(/arm is from|lower arm|NaN|Infinity/i);
    expect(await readFile(join(out, 'top.svg'), 'utf8')).not.toMatch(/data-dimension|tie rod/i);
  });

  it('sweeps it in threads, with a proof of every pose, and the poses by hand', async () => {
    const out = newFolder();
    const { stderr, code } = await run(['sweep', corner(), ...STEPS, '--threads', '2', '--out', out]);
    expect(stderr).toBe('');
    expect([0, 1]).toContain(code);
    const read = async (name: string) => JSON.parse(await readFile(join(out, name), 'utf8'));
    const [results, findings] = [await read('results.json'), await read('findings.json')];
    expect(findings.provenBetweenSteps).toBe(true);
    expect(findings.lockedOut).toEqual([]);
    expect(results.kingpinDeg).toEqual([
      -LOCK_DEG.inboard,
      -LOCK_DEG.inboard / 2,
      0,
      12.5,
      LOCK_DEG.outboard,
    ]);
    expect(results.carriers).toEqual(['chassis', 'arm', 'upright', 'wheel', 'damperBody', 'damperRod']);
    results.travelMm.forEach((travelMm: number, t: number) => {
      results.kingpinDeg.forEach((deg: number, s: number) => {
        const arm = results.poses[t * results.kingpinDeg.length + s][1];
        const behindMm = ARM_MM + OFFSET_MM * Math.sin((deg * Math.PI) / 180);
        // Third row, first column of a rotation about Y: minus its sine.
        expect(-arm[8]).toBeCloseTo(travelMm / behindMm, 8);
      });
    });
    for (const { worst, provenAtLeastMm } of findings.pairs)
      if (worst !== null && provenAtLeastMm !== null)
        expect(provenAtLeastMm).toBeLessThanOrEqual(worst.clearanceMm);
  });

  it('writes its report', async () => {
    const out = newFolder();
    // One pair is tight, so that stops are found; overlaps and joints would take most of the time.
    const { parts, ...rest } = trailingCorner();
    const few = { ...rest, parts: parts.filter(({ id }) => ['wheel', 'knuckle', 'frame'].includes(id)) };
    const file = textFile(JSON.stringify(few));
    const { stderr } = await run(['report', file, ...STEPS, '--threads', '1', '--out', out]);
    expect(stderr).toBe('');
    const text = await readFile(join(out, 'report.md'), 'utf8');
    expect(text).toMatch(/Arm about its pivot line/);
    expect(text).toMatch(/kingpin \+25\.0°|Kingpin, °/);
    expect(text).toMatch(/Kingpin displacement and wheel angle/);
    expect(text).not.toMatch(/[Rr]ack displacement|tie rod is assumed/);
  });
});
