import { readTyreSize } from '../../design/tyreSize.ts';
import type { LengthUnit } from '../../report/figures.ts';
import { roundMm } from './guess.ts';
import type { Asked } from './questions.ts';

const INCH = 25.4;
/** Thickness of a rotor's hat, between hub and wheel, as it is by default. */
export const HAT_MM = 7;
/** Rim flange beyond the bead seat, drop of the centre and wall of the barrel, as they are by default. */
export const LIP_MM = 12.7;
const DROP_MM = 17.3;
/** Between the hub's flange and the wall of the hat about it, mm. Common practice, no source. */
const FLANGE_GAP_MM = 3;
/** A rotor is larger than its hat by as much at least, mm. Common practice, no source. */
export const LEAST_RING_MM = 40;
const WALL_MM = 4;

/** Sizes of a new corner, mm but for counts and codes: as given, or usual beside what is given. */
export interface Sizes extends Record<Exclude<Asked, 'designation' | 'backspacing' | 'offset'>, number> {
  designation: string;
  /** One of both is defined. */
  backspacing: number | undefined;
  offset: number | undefined;
  /** As given or as follows from backspacing. */
  wheelOffset: number;
  tyreRadius: number;
  /** Least inside radius of the barrel. */
  barrelRadius: number;
}

/** Height of a rotor to start from, mm: what leaves room for the hub's flange behind its hat. */
export const usualRotorHeightMm = (thicknessMm: number): number => Math.max(55, thicknessMm + 28);

/** Least diameter of a hat that goes over the hub's flange, mm. */
export const hatOverFlangeMm = (flangeDiameterMm: number): number =>
  flangeDiameterMm + 2 * (HAT_MM + FLANGE_GAP_MM);

/** Fills in usual sizes, common practice without a source, such that they go with those that are given. */
export function usualSizes(
  given: Readonly<Record<Asked, number | undefined>>,
  givenTyreRadius: number | undefined,
  unit: LengthUnit,
): Sizes {
  const round = (mm: number) => roundMm(mm, unit);
  const diameterCode = Math.min(30, Math.max(8, given.diameterCode ?? 17));
  const width = given.width ?? 8 * INCH;
  const seat = diameterCode * (INCH / 2);
  const barrelRadius = seat - DROP_MM - WALL_MM;
  const byOffset = given.backspacing === undefined && given.offset !== undefined;
  const backspacing = byOffset ? undefined : (given.backspacing ?? round(width / 2 + LIP_MM + 25));
  const wheelOffset = backspacing === undefined ? (given.offset ?? 0) : backspacing - width / 2 - LIP_MM;
  const designation = `225/60R${diameterCode}`;
  const boltCircle =
    given.boltCircle ?? (given.flangeDiameter === undefined ? 114.3 : given.flangeDiameter - 25);
  const flangeDiameter = given.flangeDiameter ?? round(boltCircle + 26);
  const rotorDiameter =
    given.rotorDiameter ??
    round(Math.max(Math.min(300, 2 * (barrelRadius - 38)), hatOverFlangeMm(flangeDiameter) + LEAST_RING_MM));
  const rotorThickness = given.rotorThickness ?? round(25);
  const kingpin = given.kingpin ?? round(Math.min(300, 1.5 * barrelRadius));
  const lowerArm = given.lowerArm ?? round(380);
  return {
    diameterCode,
    width,
    backspacing,
    offset: given.offset,
    wheelOffset,
    designation,
    tyreRadius: givenTyreRadius ?? usualTyreRadius(designation, seat),
    barrelRadius,
    boltCircle,
    flangeDiameter,
    studCount: given.studCount ?? 5,
    pilotDiameter: given.pilotDiameter ?? round(Math.min(66, boltCircle - 38)),
    rotorDiameter,
    rotorThickness,
    caliperLength: given.caliperLength ?? round(Math.min(150, rotorDiameter / 2)),
    caliperRadius: given.caliperRadius ?? round(rotorDiameter / 2 + 20),
    caliperOutboard: given.caliperOutboard ?? round(24),
    caliperInboard: given.caliperInboard ?? round(60),
    kingpin,
    lowerArm,
    upperArm: given.upperArm ?? round(0.8 * lowerArm),
    bump: given.bump ?? round(75),
    droop: given.droop ?? round(75),
    rack: given.rack ?? round(50),
  };
}

function usualTyreRadius(designation: string, seat: number): number {
  try {
    return readTyreSize(designation).overallDiameterMm / 2;
  } catch {
    // A rim that no usual tyre is made for.
    return seat + 100;
  }
}
