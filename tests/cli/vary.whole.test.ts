import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { minimalCorner } from '../design/fixtures.ts';
import { cornerSource } from '../report/cornerSource.ts';
import { cornerFile, daylight, newFolder, spawnDaylight, textFile } from './run.ts';

const COARSE = ['--travel-steps', '5', '--steer-steps', '3', '--chord', '0.2'];
/** A corner with the battery above the tie rod, which rises toward it at bump. */
function overTieRod(): string {
  const { parts } = cornerSource();
  Object.assign(parts[3], { centre: [105, 450, 355] });
  return cornerFile({ parts });
}

/** The battery's underside is 25 mm lower than its centre. */
const HEIGHT = ['--field', 'battery.centre[2]', '--from', '300 mm', '--to', '360 mm', '--step', '20 mm'];

function listFile(text: string): string {
  const file = join(newFolder(), 'list.txt');
  writeFileSync(file, text);
  return file;
}

describe('vary', () => {
  it('shows for each value whether it fits, and the border', async () => {
    const ran = await daylight(['vary', overTieRod(), ...HEIGHT, ...COARSE, '--progress']);
    expect(ran.code).toBe(1);
    expect(ran.stdout).toMatch(/^300 mm +✕ touches +Tie rod ↔ Battery /m);
    expect(ran.stdout).toMatch(/^360 mm +fits +/m);
    const border =
      /^battery\.centre\[2\]: every value tried from ([\d.]+) mm to 360 mm clears; below that, at ([\d.]+) mm, (.* ↔ Battery) is ([\d.]+) mm short of its target, at bump /m.exec(
        ran.stdout,
      );
    const [fits, fails] = (border ?? []).slice(1, 3).map(Number);
    expect(fits - fails).toBeGreaterThan(0);
    expect(fits - fails).toBeLessThanOrEqual(0.1 + 1e-9);
    expect(ran.stdout).toContain('by proof, between them');
    expect(ran.stdout).toContain('Geometry only');
    expect(ran.stderr).toMatch(/^Trying values: 1 of 4\n/);
    expect(ran.stderr).not.toMatch(/warning/i);
  });

  it('ends with 0 if every value fits, with the same JSON from one thread and from two', async () => {
    const file = overTieRod();
    const high = HEIGHT.map((word) => (word === '300 mm' ? '340 mm' : word));
    const args = ['vary', file, ...high, ...COARSE, '--json', '--threads'];
    const [one, two] = await Promise.all([daylight([...args, '1']), daylight([...args, '2'])]);
    expect([one.code, one.stderr]).toEqual([0, '']);
    expect(two).toEqual(one);
    const study = JSON.parse(one.stdout);
    expect(study.cells.map(({ verdict }: { verdict: string }) => verdict)).toEqual(['fits', 'fits']);
    expect(study.fits).toMatchObject([{ first: { amount: 340 }, last: { amount: 360 }, failsAbove: null }]);
    expect(study.settings).toMatchObject({ travelSteps: 5, steerSteps: 3 });
  });

  it('ends with 1 if a joint binds at every value, and names it at each', async () => {
    const { parts } = cornerSource();
    Object.assign(parts[3], { centre: [105, 450, 355] });
    const joint = minimalCorner().parts.find(({ id }) => id === 'lowerUniball');
    const file = cornerFile({ parts: [...parts, { ...joint, allowedTiltDeg: 1 }] as typeof parts });
    const high = HEIGHT.map((word) => (word === '300 mm' ? '340 mm' : word));
    const ran = await daylight(['vary', file, ...high, ...COARSE]);
    expect([ran.code, ran.stderr]).toEqual([1, '']);
    expect(ran.stdout).toMatch(/^340 mm +✕ binds +lowerUniball, tilt +−\d+\.\d\d°$/m);
    expect(ran.stdout).toMatch(/^ +\d+\.\d\d°, 1\.00° allowed, at (bump|droop) /m);
    expect(ran.stdout).toContain('At every value: lowerUniball binds.');
    expect(ran.stdout).not.toMatch(/^3\d0 mm +fits /m);
  });

  it('ends with 2 if the suspension locks out', async () => {
    const { suspension } = JSON.parse(JSON.stringify(minimalCorner()));
    suspension.travel = { bump: 400, droop: 50 };
    const file = cornerFile({ suspension });
    const away = ['--field', 'battery.centre[2]', '--from', '900 mm', '--to', '950 mm', '--step', '50 mm'];
    const ran = await daylight(['vary', file, ...away, ...COARSE]);
    expect(ran.code).toBe(2);
    expect(ran.stdout).toMatch(/^900 mm +\? unknown/m);
    expect(ran.stdout).toContain('the suspension locks out in part of its travel and steering');
  });

  it('combines each wheel of a list with each tyre of a list', async () => {
    const corner = minimalCorner();
    const file = textFile(JSON.stringify({ ...corner, parts: corner.parts.slice(0, 4), pairs: [] }));
    const tyres = listFile('# in the shed\n245/65R17\n235/60R16\n');
    const wheels = listFile('17x8x5 1/2\n16x8x5 1/2\n');
    const few = ['--travel-steps', '3', '--steer-steps', '3', '--chord', '0.5'];
    const one = await daylight(['vary', file, '--tyres', tyres, ...few]);
    expect(one.stdout).toMatch(
      /^235\/60R16 +not built\n +the corner cannot be built: parts\[1\]\.designation is for a 16-inch rim/m,
    );
    const grid = await daylight(['vary', file, '--tyres', tyres, '--wheels', wheels, ...few]);
    expect(grid.stdout).toContain('tyre down, wheel across:');
    expect(grid.stdout).toMatch(/^235\/60R16 +not built b +fits$/m);
    expect([one.code, grid.code]).toEqual([1, 1]);
  });

  it('ends with 130 if it is cancelled', async () => {
    let sent = false;
    const ran = await spawnDaylight(['vary', cornerFile(), ...HEIGHT, '--progress'], (text, signal) => {
      if (sent || !text.includes('1 of')) return;
      sent = true;
      signal('SIGINT');
    });
    expect(ran.code).toBe(130);
    expect(ran.stdout).toBe('');
  });
});

describe('a field or list to vary', () => {
  it('is an error if it is missing or cannot be read', async () => {
    const none = await daylight(['vary', cornerFile()]);
    expect([none.code, none.stdout]).toEqual([64, '']);
    expect(none.stderr).toMatch(/^daylight: no field or list is given: give --field/);
    const list = listFile('17x8x5\n17x8\n');
    const bad = await daylight(['vary', textFile(JSON.stringify(minimalCorner())), '--wheels', list]);
    expect([bad.code, bad.stdout]).toEqual([65, '']);
    expect(bad.stderr).toContain(`--wheels: ${list}: line 2, "17x8": must have 3 dimensions, not 2`);
  });
});
