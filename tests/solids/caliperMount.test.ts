import { describe, expect, it } from 'vitest';
import type { Entry } from '../../src/design/schema.ts';
import { bodyOverBolts } from '../../src/solids/caliperMount.ts';
import { benchCorner, entryOf } from './benchCorner.ts';

/** Of bolts of 12 mm, 130 mm apart and 125 mm from the wheel axis. */
function covered(body: Partial<Entry<'caliper'>['body']>, mount: Partial<Entry<'caliper'>['mount']> = {}) {
  const corner = benchCorner();
  const caliper = entryOf(corner, 'caliper');
  Object.assign(caliper.body, { length: 190, innerRadius: 108, outerRadius: 186, ...body });
  Object.assign(caliper.mount, { boltRadius: 125, boltSpacing: 130, ...mount });
  return bodyOverBolts(corner, caliper, 12);
}

describe("a caliper's body over its own bolts", () => {
  it('covers them in its inboard half, from the gap beside the rotor to its inboard face', () => {
    const corner = benchCorner();
    // The rotor over the studs: hat 7 mm, height 47.625 mm, so that its inboard face is 40.625 mm behind the hub's face.
    const face = 7 - 47.625;
    expect(entryOf(corner, 'rotor').hatThickness).toBe(7);
    const depths = covered({ inboardDepth: 68, faceGap: 3 });
    expect(depths?.outboard).toBeCloseTo(face - 3, 9);
    expect(depths?.inboard).toBeCloseTo(face - 68, 9);
  });

  it.each([
    // Half of 130 mm less 6 mm is 59 mm.
    ['ends short of their shanks', { length: 117.9 }, {}, false],
    ['reaches over them', { length: 118.1 }, {}, true],
    ['begins beyond them', { innerRadius: 131.1, length: 60 }, { boltSpacing: 20 }, false],
    ['begins over them', { innerRadius: 130.9, length: 60 }, { boltSpacing: 20 }, true],
    ['ends below them', { outerRadius: 118.9 }, {}, false],
    ['ends within them', { outerRadius: 119.1 }, {}, true],
  ] as const)('that %s: %o, %o', (_, body, mount, is) => {
    expect(covered(body, mount) !== undefined).toBe(is);
  });

  it('ends where the radius through the outer corner meets the inner arc', () => {
    // Ends at 95 mm of 186 mm out: 120 sqrt(1 - (95 / 186)^2) = 103.16 mm; bolts midway at 97 mm are 6.16 mm below.
    const radius = (middle: number) => Math.hypot(65, middle);
    expect(covered({ innerRadius: 120 }, { boltRadius: radius(97) })).toBeUndefined();
    expect(covered({ innerRadius: 110 }, { boltRadius: radius(97) })).toBeDefined();
  });
});
