import { z } from 'zod';
import { line, type Quantities } from './quantities.ts';

/** What a set of bolts holds together; where its holes are stands with the parts that it holds. */
export const BOLT_JOINS = ['hubMount', 'caliperMount', 'rotor', 'wheel'] as const;

export const BOLT_TOOLS = ['socket', 'boxWrench', 'openWrench'] as const;

/** Dimensions that a set of bolts has only with a socket, or only with a wrench. */
export const OF_SOCKET = ['driveDiameter', 'driveLength'] as const;
export const OF_WRENCH = ['toolThickness', 'handleWidth', 'handleDeg', 'swingDeg'] as const;

/** Those of the bolts themselves, which nuts on studs lack; of nuts; of washers. */
export const OF_BOLT = ['length', 'headAcross', 'headHeight'] as const;
export const OF_NUT = ['nutAcross', 'nutHeight'] as const;
export const OF_WASHER = ['washerDiameter', 'washerThickness'] as const;

/** A set of equal bolts, or of the nuts on a hub's studs. `common` are the fields of every part. */
export function boltsSchema<C extends z.core.$ZodShape>(
  { size, degrees }: Pick<Quantities, 'size' | 'degrees'>,
  common: C,
) {
  return z.strictObject({
    ...common,
    kind: z.literal('bolts'),
    joins: z
      .enum(BOLT_JOINS)
      .describe(
        "Bearing housing to upright, caliper ears to bracket or upright, the rotor's hat to the hub, or the wheel's nuts on the hub's studs. The holes are those of that part.",
      ),
    size: line().describe('"M12", "1/2 in" or "7/16-20".'),
    head: z.enum(['hex', 'socketHead']).default('hex').describe('Form of the head; nuts on studs have none.'),
    headSide: z.enum(['inboard', 'outboard']).default('inboard').describe('Where the heads are.'),
    length: size(
      'Under the head. Where absent: through washers, clamped parts and nut and two threads more, or to the end of the clamped parts without a nut.',
    ).optional(),
    nut: z
      .boolean()
      .default(false)
      .describe('Nuts at the far end; without them the bolts screw into the last part that they hold.'),
    washers: z.boolean().default(true).describe('One under each head and each nut.'),
    headAcross: size(
      'Across the flats of a hex head, diameter of a socket head; from the table of the size where absent.',
    ).optional(),
    headHeight: size('From the table of the size where absent.').optional(),
    nutAcross: size('Across the flats; from the table of the size where absent.').optional(),
    nutHeight: size('From the table of the size where absent.').optional(),
    washerDiameter: size('From the table of the size where absent.').optional(),
    washerThickness: size('From the table of the size where absent.').optional(),
    tool: z.enum(BOLT_TOOLS).default('socket').describe('What turns them.'),
    toolOn: z.enum(['head', 'nut', 'both']).default('both').describe('Which ends are turned or held.'),
    toolDiameter: size(
      "Outside of the socket, or across the wrench's head; assumed where absent.",
    ).optional(),
    toolLength: size(
      "Of the socket, or from the bolt to the end of the wrench's handle; assumed where absent.",
    ).optional(),
    driveDiameter: size('Of what drives the socket; assumed where absent.').optional(),
    driveLength: size('Of what drives the socket, beyond the socket; assumed where absent.').optional(),
    toolThickness: size("Of the wrench's head along the bolt; assumed where absent.").optional(),
    handleWidth: size('Of the wrench; assumed where absent.').optional(),
    handleDeg: degrees(
      -360,
      360,
      'Direction of the handle in the middle of its swing, from straight outward, positive toward larger clocking; where absent 0, and whichever has room in the order of assembly.',
    ).optional(),
    swingDeg: degrees(
      1,
      180,
      'Swing of the handle that turns the bolt to the next grip; 30 where absent.',
    ).optional(),
  });
}
