import { describe, expect, it } from 'vitest';
import { box, boxCorner, parallelArms } from '../studies/vary/boxCorner.ts';
import { daylight, newFolder, textFile } from './run.ts';

const file = (changes: Record<string, unknown> = {}) =>
  textFile(
    JSON.stringify(
      boxCorner([box('one', 'upright', [0, 640, 350], [40, 40, 30])], {
        suspension: { ...parallelArms, steering: { rackOutboard: 40, rackInboard: 40 } },
        ...changes,
      }),
    ),
  );

/** At full bump, `rising` overlaps `fixed` by 5 mm. */
const touching = () =>
  file({
    suspension: {
      ...parallelArms,
      damper: { chassisMount: [0, 500, 700], armMount: [0, 500, 230], on: 'lowerArm' },
    },
    parts: [
      box('rising', 'upright', [0, 640, 350], [40, 40, 30]),
      box('fixed', 'chassis', [0, 640, 430], [200, 200, 20]),
    ],
    pairs: [{ between: ['rising', 'fixed'], target: 3 }],
  });
const FEW = ['--travel-steps', '7', '--steer-steps', '3', '--threads', '1'];

describe('stops of daylight limits', () => {
  it('names what ends the travel, and the stops that clear it, and writes the corner with them', async () => {
    const saved = `${newFolder()}/stopped.corner.json`;
    const path = touching();
    const { code, stdout, stderr } = await daylight([
      ...['limits', path, ...FEW, '--progress', '--bump-stop', '430', '--stops', 'travel', '--save', saved],
    ]);
    expect([code, stderr.includes('Finding stops, sweeps: ')]).toEqual([1, true]);
    expect(stdout).toMatch(/^Ends travel or lock:\n {2}rising ↔ fixed$/m);
    expect(stdout).toMatch(/^ {2}Bump: no lock-out within 200\.0 mm more\.$/m);
    expect(stdout).toMatch(/^Over 9\d\.\d % of travel × rack, every margin is kept .* It ends at:$/m);
    expect(stdout).toMatch(
      /^ {2}Bump and droop stops, clear at all lock: keeps 9\d\.\d % of travel × rack$/m,
    );
    expect(stdout).toMatch(/^ {4}File: suspension\.travel\.bump 60 mm to 5[12] mm\.$/m);
    expect(stdout).toMatch(/^ {4}Bump less by [89]\.0 mm\. Bump stop: solid at 44\d\.\d mm between /m);
    expect(stdout).toMatch(/^Bump stop solid at 430\.0 mm between the damper's mounts: bump \+72\.\d mm/m);
    const again = await daylight(['limits', saved, ...FEW]);
    expect(again.code).toBe(0);
    expect(again.stdout).toMatch(
      /^All of travel × rack can be used: every margin is kept and nothing binds\.$/m,
    );
  });

  it('gives the same as JSON, and avoids contact alone', async () => {
    const { code, stdout } = await daylight(['limits', touching(), ...FEW, '--contact', '--json']);
    const { goal, failing, region, stops, lockOuts, limits } = JSON.parse(stdout);
    expect([code, goal, failing]).toEqual([1, 'contact', [{ kind: 'pair', a: 'rising', b: 'fixed' }]]);
    expect(stops).toMatchObject({ lock: null, travel: { failing: [] }, both: null });
    expect([54, 55]).toContain(stops.travel.kept.bump);
    expect(region.edges).toHaveLength(1);
    expect(lockOuts.map(({ end }: { end: string }) => end)).toEqual(['bump', 'droop']);
    expect(limits).toEqual([]);
  });

  it('rejects a kind of stops that is not known, or not there', async () => {
    const other = await daylight(['limits', file(), '--stops', 'rack', '--save', 'x.json']);
    expect([other.code, other.stderr]).toEqual([
      64,
      'daylight: --stops: "rack" is not allowed. Give lock, travel, both.\n',
    ]);
    const alone = await daylight(['limits', file(), '--save', 'x.json']);
    expect([alone.code, alone.stderr]).toEqual([64, 'daylight: --save needs --stops lock, travel or both\n']);
    const none = await daylight([
      'limits',
      file(),
      ...FEW,
      '--stops',
      'lock',
      '--save',
      `${newFolder()}/x.json`,
    ]);
    expect([none.code, none.stderr]).toEqual([64, 'daylight: --stops lock: this corner has no such stops\n']);
  });
});

describe('alignment of daylight limits', () => {
  it('lists it over travel and over the rack, and names what is unknown', async () => {
    const { code, stdout } = await daylight(['limits', file(), '--every', '30', '--alignment']);
    expect(code).toBe(0);
    expect(stdout).toMatch(
      /^Alignment over travel, straight ahead:\nTravel, mm {2}Rack, mm {2}Wheel angle, °/m,
    );
    expect(stdout).toMatch(/^ +\+60\.0 +0\.0 +0\.00 +0\.00/m);
    expect(stdout).toMatch(/^Over rack, at ride height:$/m);
    expect(stdout).toContain('Ackermann and turning circle are unknown: type vehicle.wheelbase in the file.');
    expect(stdout).not.toMatch(/Ackermann, %/);
    const inches = await daylight([
      'limits',
      file({ vehicle: { wheelbase: 2500 } }),
      '--unit',
      'in',
      '--alignment',
    ]);
    expect(inches.stdout).toMatch(/Travel, in .*Camber gain, °\/in/);
    expect(inches.stdout).toMatch(/Ackermann, % {2}Turning circle, in/);
  });

  it('prints every step as CSV and as JSON', async () => {
    const path = file({ side: 'right' });
    const csv = (await daylight(['limits', path, '--csv'])).stdout.trimEnd().split('\n');
    expect(csv).toHaveLength(1 + 6 * 5);
    const titles = csv[0].split('","');
    expect(new Set(titles).size).toBe(titles.length);
    const { format, version, side, alignment } = JSON.parse(
      (await daylight(['limits', path, '--json', '--alignment'])).stdout,
    );
    expect([format, version, side, alignment.length]).toEqual(['daylight.limits', 1, 'right', 30]);
    // The right corner's front edge is outboard at a rack to the right.
    expect(alignment[4]).toMatchObject({ travelMm: -50, rackMm: -40, antiDivePercent: null });
    expect(alignment[4].wheelAngleDeg).toBeLessThan(0);
  });

  it('rejects a step that is too small', async () => {
    const { code, stderr } = await daylight(['limits', file(), '--every', '0.1']);
    expect([code, stderr]).toEqual([
      64,
      'daylight: --every: "0.1" is not allowed. Give a length from 1 to 1000 mm.\n',
    ]);
  });
});
