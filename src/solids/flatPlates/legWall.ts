import { applyPoint, compose, fromAxes, invert, type Rigid, rotationAbout } from '../../math/rigid.ts';
import { addScaled, cross, dot, perpendicular, scale, type Vec3 } from '../../math/vec.ts';
import type { CrossSection, Manifold, Modeller } from '../modeller.ts';
import type { Point2 } from '../simplePolygon.ts';
import type { BossPlace } from '../uprightPlan.ts';
import { bendLengths } from './bend.ts';
import type { BendRule, PlateBend } from './flatPlate.ts';
import { bandOf, movedSection, sliceIn } from './slice.ts';

/** One wall of a leg: a plate in the plane of the pad or square to it, folded at the kick-out toward the boss. */
export interface LegWallInput {
  /** The leg with its bore, in the pad's frame. */
  solid: Manifold;
  boss: BossPlace;
  bossRadiusMm: number;
  /** Unit vector along the leg, away from the wheel axis, and the unit vector out of the wall; pad's frame. */
  outward: Vec3;
  normal: Vec3;
  /** Distance of the wall's outer face from the wheel axis (or the pad's outboard face) along the normal, mm. */
  outerMm: number;
  thicknessMm: number;
  kickOutMm: number;
  /** The wall is the whole leg, and runs to the middle of the boss. If not, its outer face runs to the outside of the boss. */
  isWholeLeg: boolean;
}

export interface LegWall {
  /** Frame of the flat part: y along the leg from the wheel axis, z along the normal, origin in the middle plane. */
  padFromFlat: Rigid;
  /** Frame of the folded part: origin in the line in which the two middle planes meet. */
  padFromFlap: Rigid;
  /** y of that line in the flat part, mm. */
  foldMm: number;
  /** Developed outline, in the flat part's x and y. `flat` and `flap`: its two parts, without the strip between. */
  developed: CrossSection;
  flat: CrossSection;
  flap: CrossSection;
  bend: PlateBend;
  setbackMm: number;
  /** Place on the developed plate of a point on the folded part, given in the pad's frame. */
  onFlap(at: Vec3): Point2;
}

/** Width of the strips whose hull bridges a bend, mm. */
const EDGE_MM = 1e-3;

/** Points on each rim of a boss, from which the tangent plane is found; error 1e-5 of the radius. */
const RIM_POINTS = 720;

/**
 * The wall developed flat, or undefined if the boss reaches inside the kick-out, where no plane leads past its outside.
 * Outline: the sections of the solid with the middle planes of the two flat parts.
 */
export function legWallOf(
  modeller: Modeller,
  wall: LegWallInput,
  rule: BendRule | undefined,
): LegWall | undefined {
  const { solid, outward, normal, outerMm, thicknessMm, kickOutMm } = wall;
  const angleRad = foldAngle(wall);
  if (angleRad === undefined) return undefined;
  const x = cross(outward, normal);
  const padFromFlat = fromAxes(x, outward, normal, scale(normal, outerMm - thicknessMm / 2));
  // The middle planes meet nearer to the side toward which the wall is folded than the outer faces do.
  const foldMm = kickOutMm + (wall.isWholeLeg ? 0 : (thicknessMm / 2) * Math.tan(angleRad / 2));
  const flatFromFlap = rotationAbout([0, foldMm, 0], [1, 0, 0], angleRad);
  const padFromFlap = compose(
    compose(padFromFlat, flatFromFlap),
    fromAxes([1, 0, 0], [0, 1, 0], [0, 0, 1], [0, foldMm, 0]),
  );
  const { setbackMm, allowanceMm } = bendLengths(angleRad, thicknessMm, rule);
  const shiftMm = allowanceMm - 2 * setbackMm;
  const flapMap = ([u, v]: Point2): Point2 => [u, v + foldMm + shiftMm];
  const flat = bandOf(modeller, sliceIn(solid, padFromFlat), undefined, foldMm - setbackMm);
  const flap = movedSection(modeller, bandOf(modeller, sliceIn(solid, padFromFlap), setbackMm), flapMap);
  const edge = bandOf(modeller, flat, foldMm - setbackMm - EDGE_MM);
  const strip = modeller.CrossSection.hull([
    edge,
    bandOf(modeller, flap, undefined, foldMm - setbackMm + allowanceMm + EDGE_MM),
  ]);
  const { min, max } = edge.bounds();
  const middle = foldMm + shiftMm / 2;
  const flapFromPad = invert(padFromFlap);
  return {
    padFromFlat,
    padFromFlap,
    foldMm,
    developed: flat.add(flap).add(strip),
    flat,
    flap,
    setbackMm,
    bend: {
      from: [min[0], middle],
      to: [max[0], middle],
      angleDeg: (angleRad * 180) / Math.PI,
      beyond: [0, 1],
      allowanceMm,
      shiftMm,
    },
    onFlap: (at) => {
      const [u, v] = applyPoint(flapFromPad, at);
      return flapMap([u, v]);
    },
  };
}

/** Angle of the fold, radians, positive along the normal; undefined if the boss is not beyond the kick-out. */
function foldAngle({
  boss,
  bossRadiusMm,
  outward,
  normal,
  outerMm,
  thicknessMm,
  kickOutMm,
  isWholeLeg,
}: LegWallInput): number | undefined {
  const across = perpendicular(boss.axis);
  const along = cross(boss.axis, across);
  const rim = [boss.near, boss.far].flatMap((end) =>
    Array.from({ length: RIM_POINTS }, (_, k): Vec3 => {
      const angle = (2 * Math.PI * k) / RIM_POINTS;
      return addScaled(
        addScaled(end, across, bossRadiusMm * Math.cos(angle)),
        along,
        bossRadiusMm * Math.sin(angle),
      );
    }),
  );
  if (rim.some((at) => dot(at, outward) <= kickOutMm)) return undefined;
  if (isWholeLeg)
    return Math.atan2(
      dot(boss.middle, normal) - (outerMm - thicknessMm / 2),
      dot(boss.middle, outward) - kickOutMm,
    );
  return Math.max(...rim.map((at) => Math.atan2(dot(at, normal) - outerMm, dot(at, outward) - kickOutMm)));
}
