import { z } from 'zod';
import { fittedFields } from '../../design/partFields.ts';
import type { Quantities } from '../../units/quantities.ts';
import { ONE_OF_ITS_KIND, type PartKindRecord } from '../partKind.ts';

export const hub: PartKindRecord<typeof schema, 'hub' | 'bearingHousing'> = {
  name: 'Hub and bearing housing',
  schema,
  step: () => 1,
  only: ONE_OF_ITS_KIND,
  needs: [],
  sitsOn: [{ kind: 'upright' }, { kind: 'spacer', place: 'upright' }],
  order: [
    ['pilotDiameter', '<', 'boltCircle'],
    ['boltCircle', '<', 'flangeDiameter'],
    ['housingDiameter', '<=', 'mountFlangeDiameter'],
    ['mountBoltCircle', '<', 'mountFlangeDiameter'],
    ['mountRectangle.width', '<', 'mountFlangeDiameter'],
    ['mountRectangle.height', '<', 'mountFlangeDiameter'],
    ['spigotDiameter', '<', 'mountFlangeDiameter'],
  ],
  bought: { free: ['clockingDeg'] },
  isClamped: true,
  solids: {
    hub: { clearance: 'onStuds' },
    bearingHousing: { suffix: 'housing', clearance: 'atHub' },
  },
};

function schema(quantity: Quantities) {
  const { size, extent, degrees, count } = quantity;
  return z.strictObject({
    ...fittedFields(quantity),
    kind: z.literal('hub').describe('A hub and its bearing housing.'),
    flangeDiameter: size('Outside diameter of the flange that the wheel bolts to. Use a vernier caliper.'),
    flangeThickness: size(
      'Thickness of the flange that the wheel bolts to, from the wheel-mounting face inboard. Use a vernier caliper.',
    ).default(12),
    pilotDiameter: size(
      'Outside diameter of the pilot that centres the wheel. Use a vernier caliper.',
    ).default(66),
    pilotLength: extent(
      'Length of the pilot beyond the wheel-mounting face; 0 for none. Use a vernier caliper.',
    ).default(10),
    studCount: count(3, 12, 'Number of wheel studs.').default(5),
    boltCircle: size(
      'Diameter of the circle through the centres of the wheel studs. Use a vernier caliper. With 4, 6 or 8 studs: from the inner side of one to the outer side of the opposite one. With 5: from the side of one to the same side of the next, times 1.701.',
    ).default(114.3),
    studDiameter: size('Diameter of each wheel stud, over the thread. Use a vernier caliper.').default(12),
    studLength: extent(
      'Length of the studs beyond the wheel-mounting face; 0 if wheel bolts are used. Use a vernier caliper.',
    ).default(45),
    mountDepth: size(
      "Distance from the wheel-mounting face inboard to the bearing housing's mounting face. Use a straight edge and a vernier caliper.",
    ),
    housingDiameter: size(
      "Outside diameter of the bearing housing, between its mounting flange and the hub's flange. Use a vernier caliper.",
    ),
    mountFlangeDiameter: size(
      "Outside diameter of the bearing housing's round mounting flange. Use a vernier caliper.",
    ),
    mountFlangeThickness: size(
      "Thickness of the bearing housing's mounting flange, from its mounting face outboard. Use a vernier caliper.",
    ).default(12),
    spigotDiameter: size(
      "Diameter of the spigot: the part of the housing that reaches inboard through the upright's bore. Use a vernier caliper.",
    ).default(60),
    spigotLength: extent(
      "Length of the spigot, from the bearing housing's mounting face inboard; 0 for none. Use a vernier caliper.",
    ).default(0),
    mountBoltCount: count(
      2,
      12,
      'Number of bolts that hold the bearing housing to the upright. Not used if the mount rectangle is given.',
    ).default(4),
    mountBoltCircle: size(
      'Diameter of the circle through the centres of the bolts to the upright. Use a vernier caliper. Not used if the mount rectangle is given.',
    ).default(110),
    mountBoltDiameter: size('Diameter of each bolt to the upright. Use a vernier caliper.').default(12),
    mountRectangle: z
      .strictObject({
        width: size(
          'Distance between hole centres, fore and aft at clocking 0. Use a vernier caliper: from edge to same edge.',
        ),
        height: size(
          'Distance between hole centres, up and down at clocking 0. Use a vernier caliper: from edge to same edge.',
        ),
      })
      .optional()
      .describe('Four bolts to the upright at the corners of a rectangle, in place of a bolt circle.'),
    clockingDeg: degrees(
      -360,
      360,
      'Angle by which the bolts to the upright are turned about the wheel axis, positive toward the rear. 0 if one bolt is straight above the axis, or the rectangle is upright. Use a protractor.',
    ).default(0),
  });
}
