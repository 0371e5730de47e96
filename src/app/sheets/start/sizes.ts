import { defaultNumber } from '../../../design/fields.ts';
import { readTyreSize } from '../../../design/tyreSize.ts';
import type { NewCornerSizes } from '../../../layouts/newCorner.ts';
import { usualCaliper } from '../../../parts/caliper/workbench.ts';
import { USUAL_HUB, usualFlangeMm, usualPilotMm } from '../../../parts/hub/workbench.ts';
import { USUAL_THICKNESS_MM, usualRotorMm } from '../../../parts/rotor/workbench.ts';
import { usualTyre } from '../../../parts/tyre/workbench.ts';
import { barrelRadiusMm, USUAL_RIM } from '../../../parts/wheel/workbench.ts';
import type { LengthUnit } from '../../../report/figures.ts';
import { roundMm } from './guess.ts';
import { type CommonKey, type QuestionKey, START } from './questions.ts';

const INCH = 25.4;

/** Sizes of a new corner, given or usual; mm except for counts and codes. */
export interface Sizes extends Record<Exclude<CommonKey, 'designation' | 'backspacing' | 'offset'>, number> {
  /** Sizes of the layout's own questions. */
  own: Readonly<Record<QuestionKey, number>>;
  designation: string;
  /** Either this or `offset` is defined. */
  backspacing: number | undefined;
  offset: number | undefined;
  /** Given, or computed from the backspacing. */
  wheelOffset: number;
  tyreRadius: number;
  /** Least inside radius of the barrel. */
  barrelRadius: number;
  /** Bearing housing's mounting face behind the wheel's mounting face. */
  mountDepth: number;
}

/** Completes the given sizes with usual ones that match them: common practice, no source. */
export function usualSizes(
  given: Readonly<Record<QuestionKey, number | undefined>>,
  givenTyreRadius: number | undefined,
  unit: LengthUnit,
): Sizes {
  const round = (mm: number) => roundMm(mm, unit);
  const diameterCode = Math.min(30, Math.max(8, given.diameterCode ?? USUAL_RIM.code));
  const width = given.width ?? USUAL_RIM.widthIn * INCH;
  const lip = defaultNumber('wheel', 'lip');
  const seat = diameterCode * (INCH / 2);
  const barrelRadius = barrelRadiusMm(diameterCode);
  const byOffset = given.backspacing === undefined && given.offset !== undefined;
  const backspacing = byOffset
    ? undefined
    : (given.backspacing ?? round(width / 2 + lip + USUAL_RIM.offsetMm));
  const wheelOffset = backspacing === undefined ? (given.offset ?? 0) : backspacing - width / 2 - lip;
  const designation = usualTyre(diameterCode);
  const boltCircle =
    given.boltCircle ??
    (given.flangeDiameter === undefined ? defaultNumber('hub', 'boltCircle') : given.flangeDiameter - 25);
  const flangeDiameter = given.flangeDiameter ?? round(usualFlangeMm(boltCircle));
  const rotorDiameter = given.rotorDiameter ?? round(usualRotorMm(barrelRadius, flangeDiameter));
  const rotorThickness = given.rotorThickness ?? round(USUAL_THICKNESS_MM);
  const { body } = usualCaliper(rotorDiameter / 2);
  return {
    diameterCode,
    width,
    backspacing,
    offset: given.offset,
    wheelOffset,
    designation,
    tyreRadius: givenTyreRadius ?? usualTyreRadius(designation, seat),
    barrelRadius,
    mountDepth: round(USUAL_HUB.mountDepth),
    boltCircle,
    flangeDiameter,
    studCount: given.studCount ?? defaultNumber('hub', 'studCount'),
    pilotDiameter: given.pilotDiameter ?? round(usualPilotMm(boltCircle)),
    rotorDiameter,
    rotorThickness,
    caliperLength: given.caliperLength ?? round(body.length),
    caliperRadius: given.caliperRadius ?? round(body.outerRadius),
    caliperOutboard: given.caliperOutboard ?? round(body.outboardDepth),
    caliperInboard: given.caliperInboard ?? round(body.inboardDepth),
    bump: given.bump ?? round(75),
    droop: given.droop ?? round(75),
    own: START.usual(given, barrelRadius, round),
  };
}

/** The sizes from which the layout places the points. */
export const newCornerSizes = ({
  tyreRadius,
  wheelOffset,
  mountDepth,
  bump,
  droop,
  own,
}: Sizes): NewCornerSizes => ({
  tyreRadius,
  wheelOffset,
  hatThickness: defaultNumber('rotor', 'hatThickness'),
  mountDepth,
  bump,
  droop,
  own,
});

/** The size that answers a question; undefined if there is none. */
export const sizeOf = (sizes: Sizes, key: QuestionKey): number | string | undefined =>
  sizes.own[key] ?? (sizes as unknown as Record<QuestionKey, number | string | undefined>)[key];

function usualTyreRadius(designation: string, seat: number): number {
  try {
    return readTyreSize(designation).overallDiameterMm / 2;
  } catch {
    // No usual tyre fits this rim.
    return seat + 100;
  }
}
