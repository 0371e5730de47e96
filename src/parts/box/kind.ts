import { z } from 'zod';
import { carriedFields } from '../../design/partFields.ts';
import type { Quantities } from '../../units/quantities.ts';
import { type PartKindRecord, PLAIN_SHAPE } from '../partKind.ts';

export const box: PartKindRecord<typeof schema, 'box'> = {
  name: 'Box',
  ...PLAIN_SHAPE,
  schema,
  solids: { box: { clearance: 'chassis' } },
};

function schema(quantity: Quantities) {
  const { size, point, degrees } = quantity;
  return z.strictObject({
    ...carriedFields(quantity),
    kind: z.literal('box').describe('A rectangular block.'),
    centre: point('Centre of the block.'),
    size: z
      .tuple([
        size('Length along its own X: fore and aft if it is not turned. Use a tape.'),
        size('Width along its own Y: across the vehicle if it is not turned. Use a tape.'),
        size('Height along its own Z: up and down if it is not turned. Use a tape.'),
      ])
      .describe("Length, width and height, along the block's own X, Y and Z."),
    rollDeg: degrees(
      -360,
      360,
      'Angle turned about vehicle X through the centre, before pitch and yaw; positive raises the left side. Use a protractor.',
    ).default(0),
    pitchDeg: degrees(
      -360,
      360,
      'Angle turned about vehicle Y through the centre, after roll; positive lowers the front. Use a protractor.',
    ).default(0),
    yawDeg: degrees(
      -360,
      360,
      'Angle turned about vehicle Z through the centre, after pitch; positive turns the front to the left. Use a protractor.',
    ).default(0),
  });
}
