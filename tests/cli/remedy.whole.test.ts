import { describe, expect, it } from 'vitest';
import { box, boxCorner, parallelArms } from '../studies/vary/boxCorner.ts';
import { daylight, spawnDaylight, textFile } from './run.ts';

/** At full bump, `rising` overlaps `fixed` by 5 mm; the pair must have a gap of 3. */
function file({ centre = 430, target = 3, fixed = ['hardpoints'] as unknown, unit = 'mm' } = {}) {
  const parts = [
    box('rising', 'upright', [0, 640, 350], [40, 40, 30]),
    box('fixed', 'chassis', [0, 640, centre], [90, 90, 20]),
  ];
  const suspension = { ...parallelArms, fixed };
  return textFile(
    JSON.stringify(boxCorner(parts, { suspension, unit, pairs: [{ between: ['rising', 'fixed'], target }] })),
  );
}

describe('daylight remedy', () => {
  it('lists the least change of each value that clears the pair, with what it does', async () => {
    const { code, stdout, stderr } = await daylight(['remedy', file(), '--progress']);
    expect(code).toBe(0);
    expect(stderr).toMatch(/^Trying changes: \d+ of \d+$/m);
    expect(stdout).toMatch(/^rising ↔ fixed: ✕ touches, −5\.0\d ± 0\.0\d mm at bump \+60\.0 mm/m);
    expect(stdout).toMatch(/^ {2}\d\. fixed\.centre\[2\] 430 mm to 439 mm$/m);
    expect(stdout).toMatch(/^ {2}\d\. suspension\.travel\.bump 60 mm to 51 mm$/m);
    expect(stdout).toMatch(
      /^ {4}Clears: at least 0\.\d\d mm more than its target\. Everything else clears\.$/m,
    );
    expect(stdout).toContain('Alignment, lock and travel stay.');
    expect(stdout).toContain('It changes: travel 110.0 mm to 101.0 mm.');
    expect(stdout).toMatch(/^\d+ values may change and 29 are fixed/m);
  });

  it('shows a plain number in the unit of the new value', async () => {
    const { stdout } = await daylight(['remedy', file({ unit: 'in' })]);
    expect(stdout).toMatch(/^ {2}\d\. fixed\.centre\[2\] 16 59\/64 in \+ to 17 1\/4 in$/m);
    expect(stdout).toMatch(/at bump \+2\.36 in/);
  });

  it('prints the same as JSON', async () => {
    const { code, stdout } = await daylight(['remedy', file(), '--json', '--pair', 'fixed:rising']);
    const { format, version, hits, noHit, unknown, notBuilt, alignment } = JSON.parse(stdout);
    expect([code, format, version, noHit, unknown]).toEqual([0, 'daylight.remedy', 1, null, []]);
    // The rack of this corner does not move, and no lock is below 0.
    expect(notBuilt.map(({ value }: { value: string }) => value)).toEqual([
      'suspension.steering.rackOutboard',
      'suspension.steering.rackInboard',
    ]);
    expect(alignment).toMatchObject({ camberDeg: 0, toeChangeDeg: 0, outboardLockDeg: 0, travelMm: 110 });
    const [{ pair, hasSlopes, remedies, refused }] = hits;
    expect([pair.a, pair.b, pair.state, hasSlopes, refused]).toEqual([
      'rising',
      'fixed',
      'touches',
      true,
      [],
    ]);
    const lifted = remedies.find(
      ({ changes }: { changes: { value: string }[] }) => changes[0].value === 'fixed.centre[2]',
    );
    expect(lifted).toMatchObject({
      changes: [
        {
          path: 'parts[1].centre[2]',
          quantity: 'length',
          from: 430,
          to: 439,
          typed: 439,
          step: 1,
          bought: false,
        },
      ],
      clearsAll: true,
      pair: { state: 'clear' },
      failing: [],
      newlyFailing: [],
      newlyUnknown: [],
      binding: [],
      others: [],
    });
    expect(lifted.pair.leastMarginMm).toBeGreaterThan(0);
  });

  it('ends with 1 if a pair has no proposal', async () => {
    const { code, stdout } = await daylight(['remedy', file({ target: 300 })]);
    expect(code).toBe(1);
    expect(stdout).toMatch(/^ {2}No change of one or two values within the ranges can be proposed\.$/m);
  });

  it('ends with 0 if there is nothing to change', async () => {
    const clear = file({ centre: 470 });
    const all = await daylight(['remedy', clear]);
    expect([all.code, all.stdout]).toEqual([
      0,
      expect.stringContaining('No pair is known to touch or to be tight.'),
    ]);
    const one = await daylight(['remedy', clear, '--pair', 'rising:fixed']);
    expect([one.code, one.stdout]).toEqual([0, expect.stringContaining('rising ↔ fixed: clear.')]);
  });

  it.each([
    [['--pair', 'rising'], /--pair: "rising" is not allowed\. Give the ids of two parts/],
    [['--pair', 'rising:fixd'], /--pair: "fixd" is not a part of this corner\. Did you mean "fixed"\?/],
  ])('%j ends with 64', async (args, message) => {
    const { code, stdout, stderr } = await daylight(['remedy', file(), ...args]);
    expect([code, stdout]).toEqual([64, '']);
    expect(stderr).toMatch(message);
  });

  it('rejects a fixed value that does not exist', async () => {
    const { code, stderr } = await daylight(['remedy', file({ fixed: ['hardpoint'] })]);
    expect(code).toBe(65);
    expect(stderr).toContain(
      'suspension.fixed[0]: is not the path of a value here. Did you mean "hardpoints"?',
    );
  });

  it('is cancelled by a signal, without output', async () => {
    let sent = false;
    const { code, stdout } = await spawnDaylight(['remedy', file(), '--progress'], (text, signal) => {
      if (sent || !text.includes('Trying changes')) return;
      sent = true;
      signal('SIGINT');
    });
    expect([code, stdout]).toEqual([130, '']);
  });
});
