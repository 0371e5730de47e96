import type { Corner } from '../design/schema.ts';
import type { LimitFinding } from '../findings/limitFindings.ts';
import { limitOwner } from '../sweep/limit.ts';
import { figuresIn } from './figures.ts';
import { allowedFromInWords } from './limitRows.ts';
import { shownWheelAngleDeg } from './pose.ts';
import { rounded } from './rounded.ts';
import { inputField, shownInput } from './steering.ts';

/**
 * A joint's tilt or a damper's length with its worst pose, for JSON, for the side of the corner. `steps`: those of the
 * sweep, if the worst pose is to have `atStep`.
 */
export function limitObject(
  corner: Corner,
  limit: LimitFinding,
  steps?: { travelMm: Float64Array; steer: Float64Array },
) {
  const { kind, label, state, unit, worst, betterHousing } = limit;
  const known = (value: number | undefined) => rounded(value ?? Number.NaN);
  return {
    part: limitOwner(corner, limit),
    label,
    kind,
    state,
    unit,
    used: known(limit.used),
    errorBound: known(limit.errorBound),
    proven: known(limit.proven),
    allowed: known(limit.allowed),
    allowedFrom: allowedFromInWords(limit, figuresIn('mm')),
    left: known(limit.left),
    worst:
      worst === undefined
        ? null
        : {
            ...(steps && {
              atStep: steps.travelMm.includes(worst.travelMm) && steps.steer.includes(worst.steer),
            }),
            travelMm: rounded(worst.travelMm),
            ...inputField(corner, rounded(shownInput(corner, worst.steer))),
            roadWheelAngleDeg: rounded(shownWheelAngleDeg(corner, worst.roadWheelAngleDeg)),
          },
    betterHousing:
      betterHousing === undefined
        ? null
        : {
            housingDirection: betterHousing.direction,
            mostTiltDeg: rounded(betterHousing.mostTiltDeg),
          },
  };
}
