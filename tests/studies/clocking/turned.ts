import { fromAxes, identity, type Rigid, rotationAbout } from '../../../src/math/rigid.ts';
import type { Vec3 } from '../../../src/math/vec.ts';
import { chordErrorMm as chordMm } from '../../../src/solids/modeller.ts';
import type { Mesh } from '../../../src/solids/solid.ts';
import { TurningPair, type TurningPairInput } from '../../../src/studies/clocking/turningPair.ts';
import { moved, ring, rod } from '../../oracles/shapes.ts';

/** Bodies about the y axis of the wheel's frame; angles are clocking, 0 along z, positive toward -x. */

const SEGMENTS = 96;
const yFromZ = fromAxes([0, 0, 1], [1, 0, 0], [0, 1, 0], [0, 0, 0]);

/** A round bar parallel to the axis, `radiusMm` from it at a clocking. */
export const peg = (diameterMm: number, radiusMm: number, deg: number, halfMm = 5): Mesh => {
  const [x, , z] = placeAt(radiusMm, deg);
  return moved(
    moved(rod(diameterMm / 2, -halfMm, halfMm, SEGMENTS), yFromZ),
    Float64Array.of(1, 0, 0, x, 0, 1, 0, 0, 0, 0, 1, z),
  );
};

export const pegError = (diameterMm: number): number => chordMm(diameterMm / 2, SEGMENTS);

/** A barrel about the axis. */
export const barrel = (innerMm: number, outerMm: number, halfMm: number): Mesh =>
  moved(
    ring(
      [
        [innerMm, -halfMm],
        [outerMm, -halfMm],
        [outerMm, halfMm],
        [innerMm, halfMm],
      ],
      SEGMENTS,
    ),
    yFromZ,
  );

export const barrelError = (outerMm: number): number => chordMm(outerMm, SEGMENTS);

/** The point at a clocking, in the plane of the wheel. */
export const placeAt = (radiusMm: number, deg: number): Vec3 => {
  const rad = (deg * Math.PI) / 180;
  return [-radiusMm * Math.sin(rad), 0, radiusMm * Math.cos(rad)];
};

/** The rotation of a clocking, computed independently of the study. */
export const turnOf = (deg: number): Rigid => rotationAbout([0, 0, 0], [0, 1, 0], (-deg * Math.PI) / 180);

export const pairOf = (
  turning: Mesh,
  fixed: Mesh,
  rest: Partial<Omit<TurningPairInput, 'turning' | 'fixed'>> & { chordErrorMm?: number } = {},
): TurningPair => {
  const { chordErrorMm = 0, ...input } = rest;
  return new TurningPair({
    turning: { mesh: turning, chordErrorMm },
    fixed: { mesh: fixed, chordErrorMm },
    turningZones: [],
    fixedZones: [],
    requiredMm: 0,
    vehicleFromWheel: identity(),
    limitMm: 60,
    ...input,
  });
};
