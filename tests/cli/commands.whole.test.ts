import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'parse5';
import { STLLoader } from 'three/examples/jsm/loaders/STLLoader.js';
import { describe, expect, it } from 'vitest';
import { type CornerSource, cornerSource } from '../report/cornerSource.ts';
import { cornerFile, daylight, newFolder, spawnDaylight } from './run.ts';

const STEPS = ['--travel-steps', '5', '--steer-steps', '3', '--chord', '0.2'];

/** With a target of 1 mm where the tie rod passes close over the lower arm's front pivot: every pair is clear. */
const clear = (): Partial<CornerSource> => ({ pairs: [{ between: ['lowerArm', 'tieRod'], target: 1 }] });

/** With the battery in the way of the tie rod at bump: its underside is at Z 285. */
function touching(): Partial<CornerSource> {
  const { parts } = cornerSource();
  Object.assign(parts[3], { centre: [105, 450, 310] });
  return { ...clear(), parts };
}

/** More bump than the arms reach; all parts are far apart. */
function unreachable(): Partial<CornerSource> {
  const { suspension, parts } = cornerSource();
  return { parts: [parts[2], parts[4]], suspension: { ...suspension, travel: { bump: 380, droop: 50 } } };
}

/** A damper away from all other parts, and a joint. */
function withLimits(damper: object, joint: object): Partial<CornerSource> {
  const { suspension, parts } = cornerSource();
  const mounts = { chassisMount: [300, 420, 640], armMount: [300, 560, 230], on: 'lowerArm' };
  const sizes = { ballDiameter: 30, housingDiameter: 44, housingWidth: 18, boltDiameter: 14, boltLength: 60 };
  return {
    suspension: { ...suspension, damper: mounts },
    parts: [
      parts[0],
      { kind: 'damper', id: 'damper', bodyDiameter: 40, bodyLength: 250, rodDiameter: 14, ...damper },
      { kind: 'joint', id: 'upperJoint', at: 'upperJoint', form: 'ball', ...sizes, ...joint },
    ],
  };
}

const readJson = (file: string) => JSON.parse(readFileSync(file, 'utf8'));

describe('exit codes', () => {
  it.each([
    ['clear', clear(), 0, /^clear, with \d+ assumed values: 10 pairs checked; all keep their target/m],
    ['tight', {}, 1, /^◣ tight: 1 pair misses its target; no pair touches\./m],
    ['touching', touching(), 1, /^✕ touches: 1 pair touches/m],
    ['unreachable', unreachable(), 2, /cannot reach \d+ of the 15 poses/],
  ] as const)('of a sweep: %s', async (_, changes, code, words) => {
    const ran = await daylight(['sweep', cornerFile(changes), ...STEPS]);
    expect([ran.code, ran.stderr]).toEqual([code, '']);
    expect(ran.stdout).toMatch(words);
    expect(ran.stdout).toContain('The poses between the steps are proven');
    expect(ran.stdout).toContain('Geometry only');
    // Parts of the range are listed as not proven only if the suspension locks out.
    expect(/^ {2}not proven: travel .*rack .*: /m.test(ran.stdout)).toBe(code === 2);
  });

  it.each([
    ['within their limits', { openLength: 600 }, {}, 0, /^clear, with \d+ assumed values: 9 pairs checked/m],
    [
      'a joint that binds',
      { openLength: 600 },
      { allowedTiltDeg: 2 },
      1,
      /^✕ touches: 1 joint binds: upperJoint\./m,
    ],
    ['a damper that bottoms out', { openLength: 600, closedLength: 425 }, {}, 1, /damper bottoms out\./],
    ['a damper that tops out', { openLength: 440 }, {}, 1, /damper tops out\./],
    ['no open length', {}, {}, 2, /^\? unknown: Whether damper tops out is unknown: give its openLength\./m],
  ] as const)('of a sweep: joints and damper, %s', async (_, damper, joint, code, words) => {
    const ran = await daylight(['sweep', cornerFile(withLimits(damper, joint)), ...STEPS]);
    expect([ran.code, ran.stderr]).toEqual([code, '']);
    expect(ran.stdout).toMatch(/^Joints and damper:\nState +Joint or damper +Used +Proven +Allowed/m);
    expect(ran.stdout).toMatch(words);
  });

  it('of a check: a damper that bottoms out at ride height', async () => {
    const ran = await daylight(['check', cornerFile(withLimits({ openLength: 600, closedLength: 450 }, {}))]);
    expect([ran.code, ran.stderr]).toEqual([1, '']);
    expect(ran.stdout).toMatch(/^✕ binds +damper, shortest +433\.24 mm +450\.00 mm +−16\.76 mm/m);
  });

  it('of a check: clear at ride height, though a sweep finds contact', async () => {
    const ran = await daylight(['check', cornerFile(touching()), '--unit', 'in']);
    expect([ran.code, ran.stderr]).toEqual([0, '']);
    expect(ran.stdout).toContain('At ride height, straight ahead, in inches:');
    expect(ran.stdout).toMatch(/parts\[2\]\.endGap: 1\.772 in/);
    expect(ran.stdout).toMatch(/reaches both ends of its travel/);
    expect(ran.stdout).not.toMatch(/proven|Nowhere below/);
  });

  it('of a check whose suspension does not reach its ends: 2, with the reason', async () => {
    const ran = await daylight(['check', cornerFile(unreachable())]);
    expect(ran.code).toBe(2);
    expect(ran.stdout).toMatch(/does not reach:\n {2}bump \+380\.0 mm, rack [−+0-9.]+ mm: \w+/);
  });
});

describe('sweep', () => {
  it('prints the same findings as JSON as it writes, and writes the results of every pose', async () => {
    const out = join(newFolder(), 'made', 'here');
    const ran = await daylight(['sweep', cornerFile(touching()), ...STEPS, '--json', '--out', out]);
    expect([ran.code, ran.stderr]).toEqual([1, '']);
    expect(readFileSync(join(out, 'findings.json'), 'utf8')).toBe(ran.stdout);
    const findings = JSON.parse(ran.stdout);
    expect(findings.pairs[0]).toMatchObject({ a: 'tieRod', b: 'battery', state: 'touches' });
    expect(findings).toMatchObject({ version: 3, provenBetweenSteps: true, lockedOut: [] });
    const bounded = findings.pairs.filter((pair: { moves: boolean; state: string }) => pair.moves);
    expect(bounded.length).toBeGreaterThan(3);
    for (const { state, targetMm, allowanceMm, provenAtLeastMm, worst } of bounded) {
      if (state === 'touches') expect(provenAtLeastMm).toBeNull();
      else if (worst !== null) expect(provenAtLeastMm).toBeLessThanOrEqual(worst.clearanceMm - worst.errorMm);
      // Chord errors of 0.2 mm each come off the 20 mm.
      else expect(provenAtLeastMm).toBeGreaterThan(targetMm + allowanceMm + 19.5);
    }
    expect(findings.settings).toEqual({ travelSteps: 5, steerSteps: 3, limitMm: 60, chordToleranceMm: 0.2 });
    const results = readJson(join(out, 'results.json'));
    expect(results.designHash).toBe(findings.designHash);
    expect(results.poses).toHaveLength(15);
    expect(results.pairs).toHaveLength(10);
    expect(readdirSync(out).sort()).toEqual(['findings.json', 'results.json']);
  });

  it('gives the same bytes from one thread as from two', async () => {
    const file = cornerFile();
    const [one, two] = [newFolder(), newFolder()];
    for (const [out, threads] of [
      [one, '1'],
      [two, '2'],
    ])
      expect((await spawnDaylight(['sweep', file, ...STEPS, '--out', out, '--threads', threads])).code).toBe(
        1,
      );
    for (const name of ['findings.json', 'results.json'])
      expect(readFileSync(join(one, name), 'utf8')).toBe(readFileSync(join(two, name), 'utf8'));
  });

  it('accepts lengths in inches, and lists far pairs with --far', async () => {
    const ran = await daylight(['sweep', cornerFile(clear()), ...STEPS, '--limit', '1 in', '--far']);
    expect(ran.code).toBe(0);
    expect(ran.stdout).toMatch(/^far +Lower arm ↔ Upper arm +at least 25\.40 /m);
    const short = await daylight(['sweep', cornerFile(clear()), ...STEPS]);
    expect(short.stdout).toMatch(
      /And 8 far pairs, at least 60\.00 mm apart at every step\. Between the steps, each pair /,
    );
    expect(short.stdout).not.toMatch(/^far /m);
    expect(short.stdout).toContain(
      '\n10 pairs: 10 measured everywhere, 0 measured outside zones of intended contact, 0 not checked\n',
    );
    expect(short.stdout).not.toContain('Measured everywhere');
    const all = await daylight(['sweep', cornerFile(clear()), ...STEPS, '--all']);
    expect(all.stdout).toMatch(/^far +Lower arm ↔ Upper arm /m);
    expect(all.stdout).toContain('Measured everywhere, 10 pairs:\n');
  });

  it('prints the worst case of a pair between steps, with its lower bound', async () => {
    const ran = await daylight(['sweep', cornerFile(), ...STEPS]);
    const tight = /^◣ tight +Lower arm ↔ Tie rod +([\d.]+) ± ([\d.]+) +([\d.]+) /m.exec(ran.stdout);
    const [found, error, below] = (tight ?? []).slice(1).map(Number);
    expect(ran.stdout).toMatch(/^State +Pair +Clearance +Nowhere below +Target/m);
    expect(below).toBeLessThanOrEqual(found - error + 0.01);
    // The interval is at most 0.1 mm wide, and both figures are rounded to hundredths.
    expect(below).toBeGreaterThan(found - error - 0.1 - 0.02);
  });

  it('reports progress with --progress', async () => {
    const ran = await daylight(['sweep', cornerFile(clear()), ...STEPS, '--progress']);
    expect(ran.stderr).toMatch(/Sweeping, steps of travel: 5 of 5\n/);
    expect(ran.stderr).toMatch(/Proving between the steps, pairs: 10 of 10\n$/);
  });

  it.each(['SIGINT', 'SIGTERM'] as const)(
    'cancelled by %s ends with 130 and writes nothing',
    async (name) => {
      const out = newFolder();
      writeFileSync(join(out, 'findings.json'), 'kept');
      let sent = false;
      const ran = await spawnDaylight(
        ['sweep', cornerFile(), '--travel-steps', '1999', '--steer-steps', '41', '--progress', '--out', out],
        (text, signal) => {
          if (sent || !text.includes('Sweeping')) return;
          sent = true;
          signal(name);
        },
      );
      expect(ran.code).toBe(130);
      expect(ran.stderr).toMatch(/daylight: cancelled; nothing was written\n$/);
      expect(readdirSync(out)).toEqual(['findings.json']);
      expect(readFileSync(join(out, 'findings.json'), 'utf8')).toBe('kept');
    },
  );
});

describe('report', () => {
  it('writes HTML and Markdown over old files', async () => {
    const out = newFolder();
    writeFileSync(join(out, 'report.html'), 'old');
    const ran = await daylight(['report', cornerFile(touching()), ...STEPS, '--out', out]);
    expect([ran.code, ran.stderr]).toEqual([1, '']);
    const tables = ['alignment.csv', 'inputs.csv', 'limits.csv', 'pairs.csv'];
    expect(readdirSync(out).sort()).toEqual([...tables, 'report.html', 'report.json', 'report.md']);
    const html = readFileSync(join(out, 'report.html'), 'utf8');
    const errors: string[] = [];
    parse(html, { onParseError: ({ code }) => errors.push(code) });
    expect(errors).toEqual([]);
    const markdown = readFileSync(join(out, 'report.md'), 'utf8');
    for (const text of [html, markdown]) {
      expect(text).toContain('Clearance report: Gravel kit car');
      expect(text).toContain('✕ touches');
    }
    expect(markdown).toMatch(/\| 1 \| ✕ touches \| Tie rod ↔ Battery \|/);
    expect(ran.stdout).toContain(`Written: ${join(out, 'report.md')}`);
  });

  it('writes a PDF, and compares with an earlier report', async () => {
    const [earlier, out] = [newFolder(), newFolder()];
    const file = cornerFile(clear());
    await daylight(['report', file, ...STEPS, '--out', earlier]);
    const against = join(earlier, 'report.json');
    const ran = await daylight([
      'report',
      file,
      ...STEPS,
      '--against',
      against,
      '--pdf',
      '--paper',
      'Letter',
      '--out',
      out,
    ]);
    expect([ran.code, ran.stderr]).toEqual([0, '']);
    expect(readFileSync(join(out, 'report.pdf'), 'latin1')).toMatch(/^%PDF-1\.\d/);
    const markdown = readFileSync(join(out, 'report.md'), 'utf8');
    expect(markdown).toContain('No input has changed.');
    expect(markdown).toContain('No margin has changed.');
    const wrong = await daylight(['report', file, '--against', file, '--out', out]);
    expect(wrong.code).toBe(65);
    expect(wrong.stderr).toMatch(/--against .*: format: .* Give the report\.json of an earlier report\./);
    const paper = await daylight(['report', file, '--paper', 'A5', '--out', out]);
    expect([paper.code, paper.stderr]).toEqual([
      64,
      expect.stringContaining('--paper: "A5" is not allowed. Give A4 or Letter.'),
    ]);
  });

  it('gives the reason for unreachable poses', async () => {
    const out = newFolder();
    const ran = await daylight(['report', cornerFile(unreachable()), ...STEPS, '--out', out]);
    expect(ran.code).toBe(2);
    expect(readFileSync(join(out, 'report.md'), 'utf8')).toMatch(/- bump .*steps?\): \w+ \w+/);
  });
});

describe('export', () => {
  /** Least and greatest of each coordinate, read by three's STLLoader. */
  function reach(file: string): { low: number[]; high: number[] } {
    const bytes = readFileSync(file);
    expect(bytes.length).toBe(84 + 50 * bytes.readUInt32LE(80));
    const geometry = new STLLoader().parse(new Uint8Array(bytes).buffer);
    geometry.computeBoundingBox();
    const { min, max } = geometry.boundingBox!;
    return { low: min.toArray(), high: max.toArray() };
  }

  it('writes each part at its place at ride height, a right corner mirrored', async () => {
    const [left, right] = [newFolder(), newFolder()];
    for (const [out, side] of [
      [left, 'left'],
      [right, 'right'],
    ] as const) {
      const ran = await daylight(['export', cornerFile({ side }), '--stl', out]);
      expect([ran.code, ran.stderr]).toEqual([0, '']);
      expect(readdirSync(out).sort()).toEqual([
        'battery.stl',
        'lowerArm.stl',
        'sensor.stl',
        'tieRod.stl',
        'upperArm.stl',
      ]);
    }
    // The battery: centre (0, 450, 355), 150 x 60 x 50.
    expect(reach(join(left, 'battery.stl'))).toEqual({ low: [-75, 420, 330], high: [75, 480, 380] });
    expect(reach(join(right, 'battery.stl'))).toEqual({ low: [-75, -480, 330], high: [75, -420, 380] });
  });

  it('creates no folder if the file has errors', async () => {
    const out = join(newFolder(), 'none');
    expect((await daylight(['export', cornerFile({ version: 99 }), '--stl', out])).code).toBe(65);
    expect(existsSync(out)).toBe(false);
  });
});
