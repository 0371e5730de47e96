import { describe, expect, it } from 'vitest';
import { COVERING_CHECKS, coveringChecks } from '../../src/design/coveringChecks.ts';

describe('the checks that cover a pair', () => {
  it('are found in either order of the two kinds', () => {
    expect(coveringChecks('rotor', 'bolts')).toEqual(['bolt heads in counterbores']);
    expect(coveringChecks('upright', 'bearingHousing')).toEqual(['spigot in bores']);
    expect(coveringChecks('bearingHousing', 'upright')).toEqual(['spigot in bores']);
    expect(coveringChecks('damperRod', 'damperBody')).toEqual(['damper length']);
    expect(coveringChecks('spacer', 'wheel')).toEqual([
      'spokes clear of hub, hat and spacers',
      'hub, hat and spacers inside barrel',
    ]);
  });

  it('are none if no check replaces a measurement', () => {
    expect(coveringChecks('tube', 'tube')).toEqual([]);
    expect(coveringChecks('rotor', 'spacer')).toEqual([]);
  });

  it('each have a unique name, and cover a pair', () => {
    expect(new Set(COVERING_CHECKS.map(({ name }) => name)).size).toBe(COVERING_CHECKS.length);
    for (const { name, pairs } of COVERING_CHECKS) expect(pairs.length, name).toBeGreaterThan(0);
  });
});
