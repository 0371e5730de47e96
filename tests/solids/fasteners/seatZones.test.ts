import { describe, expect, test } from 'vitest';
import { buildRotor } from '../../../src/parts/rotor/build.ts';
import { hubMountSeats } from '../../../src/solids/fasteners/hubMount.ts';
import { BEYOND_EDGE_MM } from '../../../src/solids/fasteners/seatZones.ts';
import { jointBolt } from '../../../src/solids/jointBolt.ts';
import type { Seat } from '../../../src/solids/solid.ts';
import { entries } from '../../../src/solids/wheelFrame.ts';
import { benchCorner, contextOf, entryOf } from '../benchCorner.ts';

/** Words and radius of each zone, mm. */
const zonesOf = (seats: readonly Seat[] | undefined) =>
  seats?.flatMap(({ zones }) => zones.map(({ what, radiusMm }) => [what, radiusMm]));

describe('zones at clamped faces', () => {
  test.each([
    [130, 165, 130],
    [190, 165, 165],
  ])('end 10 mm past the smaller of pad and hat: pad %s mm, hat %s mm', async (pad, hat, smaller) => {
    const corner = benchCorner();
    entryOf(corner, 'wheel').padDiameter = pad;
    const rotor = { ...entryOf(corner, 'rotor'), hatDiameter: hat };
    const [{ seats }] = buildRotor(rotor, await contextOf(corner));
    expect(zonesOf(seats)).toEqual([['hat clamped against the wheel', smaller / 2 + BEYOND_EDGE_MM]]);
  });

  test.each([
    [120, 145, 120],
    [160, 145, 145],
  ])('end 10 mm past the smaller of hub flange and upright pad: %s mm, %s mm', (flange, pad, smaller) => {
    const corner = benchCorner();
    const hub = entryOf(corner, 'hub');
    hub.mountFlangeDiameter = flange;
    entryOf(corner, 'upright').hubMount.diameter = pad;
    expect(zonesOf(hubMountSeats(corner, `${hub.id}.housing`, 0.05))).toContainEqual([
      'clamped faces of the hub mount',
      smaller / 2 + BEYOND_EDGE_MM,
    ]);
  });

  test.each([
    [20, 20, 44, 36],
    [48, 36, 22, 22],
  ])(
    'end 10 mm past the smaller of boss and spacer or head: %s to %s mm, %s to %s mm',
    async (spacer, near, head, far) => {
      const corner = benchCorner();
      entryOf(corner, 'upright').jointMounts.diameter = 36;
      const joint = entries(corner, 'joint').find(({ at }) => at === 'upperJoint')!;
      const sizes = { spacers: { diameter: spacer, length: 8 }, boltHead: { diameter: head, height: 10 } };
      const { seats } = jointBolt({ ...joint, ...sizes }, await contextOf(corner));
      expect(zonesOf(seats)?.slice(1)).toEqual([
        ['spacer against the boss', near / 2 + BEYOND_EDGE_MM],
        ['nut against the boss', far / 2 + BEYOND_EDGE_MM],
      ]);
    },
  );
});
