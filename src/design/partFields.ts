/** Fields of the entries in `parts` that several kinds of parts have. */
import { z } from 'zod';
import { namesInAll } from '../layouts/layoutOf.ts';
import { line, type Quantities } from '../units/quantities.ts';

/** Paths of values in the file that nobody measured: see assumed.ts. */
export const assumedList = (owner: string) =>
  z
    .array(line().describe('Path of one value or group.'))
    .optional()
    .describe(
      `Values of ${owner} that nobody measured, by their paths within it: "hubMount" for a whole group, "hubMount.bore" for one value.`,
    );

/** Values that a proposal of changes leaves alone: see fixed.ts. */
export const fixedValues = (owner: string, byDefault: string) =>
  z
    .union([z.boolean(), z.array(line().describe('Path of one value or group.'))])
    .optional()
    .describe(
      `Values of ${owner} that a proposal never changes: true for all, false for none, or a list of their paths, such as "thickness". ${byDefault}`,
    );

/** Fields of every part. */
export const commonFields = ({ extent }: Quantities) => ({
  id: z
    .string()
    .regex(/^[a-zA-Z][\w-]*$/, 'letters, digits, - and _, beginning with a letter')
    .describe('Short name by which the file and its pair rules refer to the part.'),
  label: line().min(1).optional().describe('Name shown for the part; its id if left out.'),
  allowance: extent(
    'Length subtracted from every margin of this part, for flex, play and measuring error. Choose it.',
  ).default(0),
  assumed: assumedList('this part'),
  fixed: fixedValues(
    'this part',
    'If left out, the usual ones for its kind: parts that are bought are fixed.',
  ),
});

/** Fields of a part that goes on in a step of its own: every kind but the tyre, which goes on with its wheel. */
export const fittedFields = (quantity: Quantities) => ({
  ...commonFields(quantity),
  fitted: quantity
    .count(
      0,
      99,
      'Step of assembly at which the part goes on, counted from 0. If left out, the usual step of its kind.',
    )
    .optional(),
});

/** Fields of a plain shape, on any carrier. */
export const carriedFields = (quantity: Quantities) => ({
  ...fittedFields(quantity),
  carrier: z
    .enum(namesInAll(({ carriers }) => Object.keys(carriers)))
    .default('chassis')
    .describe('Part of the vehicle that this shape moves with; the chassis does not move.'),
});
