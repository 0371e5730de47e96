import { z } from 'zod';
import { commonFields } from '../../design/partFields.ts';
import { line, type Quantities } from '../../units/quantities.ts';
import { ONE_OF_ITS_KIND, type PartKindRecord } from '../partKind.ts';

export const tyre: PartKindRecord<typeof schema, 'tyre'> = {
  name: 'Tyre',
  schema,
  step: () => 3,
  only: ONE_OF_ITS_KIND,
  needs: [{ kind: 'wheel', why: 'it sits on its rim' }],
  sitsOn: [],
  order: [],
  bought: { free: [] },
  isClamped: false,
  solids: { tyre: { clearance: 'tyre' } },
};

function schema(quantity: Quantities) {
  const { size, extent } = quantity;
  return z.strictObject({
    ...commonFields(quantity),
    kind: z.literal('tyre').describe('A tyre on the wheel.'),
    designation: line().describe(
      'Size on the sidewall: "205/55R16", "LT265/70R17", "37x12.5R17LT" or "7.00R16". A size like the last gives no dimensions: also give overall diameter and section width.',
    ),
    overallDiameter: size(
      'Outside diameter of the tyre, mounted and inflated; replaces that of the size. Use a tape around the tread, and divide by 3.1416.',
    ).optional(),
    sectionWidth: size(
      'Greatest width from sidewall to sidewall, mounted and inflated; replaces that of the size. Use two squares and a tape.',
    ).optional(),
    treadWidth: size(
      'Width of the tread from edge to edge. Use a tape. If left out, computed from the section width.',
    ).optional(),
    growth: extent(
      'Growth of the tyre in service, on the radius and on each side; added all around it before it is checked. Choose it from the data sheet or from experience.',
    ).default(0),
  });
}
