import type { Corner, Entry } from '../../design/schema.ts';
import { cos, sin } from '../../math/sine.ts';
import { entries } from '../../solids/wheelFrame.ts';
import { degToRad, radToDeg } from '../../units/angle.ts';
import { studiedCaliper } from './groups.ts';
import { wrapDeg } from './spans.ts';

/** Where a caliper stands at a clocking. */
export interface CaliperFigures {
  /**
   * Of the line from the middle of the body to the foot of the bleed screw, seen along the wheel axis: its angle from
   * straight up, degrees, positive toward the rear. Undefined without a bleed screw.
   *
   * Air gathers where the fluid stands highest, and leaves through the screw where that is its foot. How the passages run is
   * not measured. Whatever reaches no further from the middle than the foot is highest straight above the middle: with the
   * foot there no air is left, and turned from there it is at most `bleedBelowTopMm` that can be.
   */
  bleedScrewDeg: number | undefined;
  /** How much lower the foot of the bleed screw is than it would be straight above the middle of the body, mm. */
  bleedBelowTopMm: number | undefined;
  /** The middle of the body ahead of the wheel axis, mm; negative behind it. */
  aheadMm: number;
}

/** Wheel axis to the middle of a caliper's body, mm. */
const middleRadiusMm = ({ body }: Entry<'caliper'>): number => (body.innerRadius + body.outerRadius) / 2;

/** From the middle of a caliper's body to the foot of its bleed screw at a clocking of 0: rearward and up, mm. */
function bleedScrewFoot(caliper: Entry<'caliper'>): { rearMm: number; upMm: number } | undefined {
  const { bleedScrew } = caliper;
  if (bleedScrew === undefined) return undefined;
  const { along, radius } = bleedScrew;
  return { rearMm: along, upMm: Math.sqrt(radius ** 2 - along ** 2) - middleRadiusMm(caliper) };
}

/**
 * The bleed screw's angle from straight up at a clocking of 0, degrees (see `CaliperFigures`); undefined without one. A
 * turn of the caliper adds to it.
 */
export function bleedScrewAtZeroDeg(caliper: Entry<'caliper'>): number | undefined {
  const foot = bleedScrewFoot(caliper);
  return foot && radToDeg(Math.atan2(foot.rearMm, foot.upMm));
}

/** Where the caliper of a corner stands at a clocking. */
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

/**
 * The turn of the hub after which its bolts stand where others stood, degrees. Turns of so much are one arrangement.
 */
export function hubPeriodDeg(corner: Corner): number {
  const [hub] = entries(corner, 'hub');
  if (hub === undefined) return 360;
  const { mountRectangle, mountBoltCount } = hub;
  if (mountRectangle === undefined) return 360 / mountBoltCount;
  return mountRectangle.width === mountRectangle.height ? 90 : 180;
}
