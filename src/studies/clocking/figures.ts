import type { Corner, Entry } from '../../design/schema.ts';
import { cos, sin } from '../../math/sine.ts';
import { entries } from '../../solids/wheelFrame.ts';
import { degToRad, radToDeg } from '../../units/angle.ts';
import { studiedCaliper } from './groups.ts';
import { wrapDeg } from './spans.ts';

/** Position of a caliper at a clocking. */
export interface CaliperFigures {
  /**
   * Angle from straight up of the line from the middle of the body to the foot of the bleed screw, seen along the
   * wheel axis, degrees, positive toward the rear. Undefined without a bleed screw.
   *
   * Air gathers at the highest point of the fluid, and leaves through the screw if that point is its foot. The
   * internal passages are not measured. Every point no further from the middle than the foot is highest when straight
   * above the middle: with the foot there, no air is left; at other angles at most a height of `bleedBelowTopMm`.
   */
  bleedScrewDeg: number | undefined;
  /** Height of the bleed screw's foot below its position straight above the middle of the body, mm. */
  bleedBelowTopMm: number | undefined;
  /** Distance of the body's middle ahead of the wheel axis, mm; negative behind it. */
  aheadMm: number;
}

/** Distance from the wheel axis to the middle of a caliper's body, mm. */
const middleRadiusMm = ({ body }: Entry<'caliper'>): number => (body.innerRadius + body.outerRadius) / 2;

/** Vector from the middle of a caliper's body to the foot of its bleed screw at clocking 0: rearward and up, mm. */
function bleedScrewFoot(caliper: Entry<'caliper'>): { rearMm: number; upMm: number } | undefined {
  const { bleedScrew } = caliper;
  if (bleedScrew === undefined) return undefined;
  const { along, radius } = bleedScrew;
  return { rearMm: along, upMm: Math.sqrt(radius ** 2 - along ** 2) - middleRadiusMm(caliper) };
}

/**
 * The bleed screw's angle from straight up at clocking 0, degrees (see `CaliperFigures`); undefined without one. The
 * caliper's clocking adds to it.
 */
export function bleedScrewAtZeroDeg(caliper: Entry<'caliper'>): number | undefined {
  const foot = bleedScrewFoot(caliper);
  return foot && radToDeg(Math.atan2(foot.rearMm, foot.upMm));
}

/** Position of a corner's caliper at a clocking. */
export function caliperFigures(corner: Corner, clockingDeg: number): CaliperFigures {
  const { entry } = studiedCaliper(corner);
  const atZeroDeg = bleedScrewAtZeroDeg(entry);
  const foot = bleedScrewFoot(entry);
  const bleedScrewDeg = atZeroDeg === undefined ? undefined : wrapDeg(atZeroDeg + clockingDeg);
  return {
    bleedScrewDeg,
    bleedBelowTopMm:
      foot && bleedScrewDeg !== undefined
        ? Math.hypot(foot.rearMm, foot.upMm) * (1 - cos(degToRad(bleedScrewDeg)))
        : undefined,
    aheadMm: -sin(degToRad(clockingDeg)) * middleRadiusMm(entry),
  };
}

/** Rotational period of the hub's bolt pattern, degrees. */
export function hubPeriodDeg(corner: Corner): number {
  const [hub] = entries(corner, 'hub');
  if (hub === undefined) return 360;
  const { mountRectangle, mountBoltCount } = hub;
  if (mountRectangle === undefined) return 360 / mountBoltCount;
  return mountRectangle.width === mountRectangle.height ? 90 : 180;
}
