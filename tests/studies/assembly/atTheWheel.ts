import type { Corner } from '../../../src/design/schema.ts';
import { applyPoint } from '../../../src/math/rigid.ts';
import { axialStack, vehicleFromWheelAxis } from '../../../src/solids/wheelFrame.ts';
import { benchCorner, entryOf } from '../../solids/benchCorner.ts';

/**
 * The bench corner with only upright, hub, rotor, caliper, wheel and tyre, which do not move relative to each other.
 */
export function atTheWheel(): Corner {
  const corner = benchCorner();
  corner.parts = corner.parts.filter(({ kind }) =>
    ['wheel', 'tyre', 'hub', 'rotor', 'caliper', 'upright'].includes(kind),
  );
  // The ears are beyond the ends of the body, which leaves space for their bolts.
  entryOf(corner, 'caliper').body.length = 90;
  // The housing does not protrude behind the plate.
  entryOf(corner, 'hub').spigotLength = 0;
  return corner;
}

/** A cube on the upright at a point beside the wheel axis; depth from the hub's mounting face. */
export function addCube(
  corner: Corner,
  id: string,
  [x, depth, z]: [number, number, number],
  side: number,
): void {
  const { hubFaceY } = axialStack(corner);
  corner.parts.push({
    id,
    kind: 'box',
    allowance: 0,
    carrier: 'upright',
    centre: [...applyPoint(vehicleFromWheelAxis(corner.suspension), [x, hubFaceY + depth, z])],
    size: [side, side, side],
    rollDeg: 0,
    pitchDeg: 0,
    yawDeg: 0,
  });
}
