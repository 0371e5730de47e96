import { describe, expect, it } from 'vitest';
import { box, boxCorner, parallelArms } from '../studies/vary/boxCorner.ts';
import { daylight, textFile } from './run.ts';

const file = (changes: Record<string, unknown> = {}) =>
  textFile(
    JSON.stringify(
      boxCorner([box('one', 'upright', [0, 640, 350], [40, 40, 30])], {
        suspension: { ...parallelArms, steering: { rackOutboard: 40, rackInboard: 40 } },
        ...changes,
      }),
    ),
  );

describe('alignment of daylight limits', () => {
  it('lists it over travel and over the rack, and names what is unknown', async () => {
    const { code, stdout } = await daylight(['limits', file(), '--every', '30']);
    expect(code).toBe(0);
    expect(stdout).toMatch(
      /^Alignment over travel, straight ahead:\nTravel, mm {2}Rack, mm {2}Wheel angle, °/m,
    );
    expect(stdout).toMatch(/^ +\+60\.0 +0\.0 +0\.00 +0\.00/m);
    expect(stdout).toMatch(/^Over rack, at ride height:$/m);
    expect(stdout).toContain('Ackermann and turning circle are unknown: type vehicle.wheelbase in the file.');
    expect(stdout).not.toMatch(/Ackermann, %/);
    const inches = await daylight(['limits', file({ vehicle: { wheelbase: 2500 } }), '--unit', 'in']);
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
      (await daylight(['limits', path, '--json'])).stdout,
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
