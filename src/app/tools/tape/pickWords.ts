import { shownPoint } from '../../../design/side.ts';
import { distance, midpoint, scale, type Vec3 } from '../../../math/vec.ts';
import { decimal, type Figures, figuresIn, type LengthUnit } from '../../../report/figures.ts';
import type { Feature } from '../../../solids/features/feature.ts';
import type { Solid } from '../../../solids/solid.ts';
import { formatInches } from '../../../units/formatLength.ts';
import { trimmed } from '../../kit/words.ts';
import type { OpenCorner } from '../../state/engine.ts';
import type { Pick, PlaceFeature } from '../../workers/tape/pick.ts';

const INCH = 25.4;
const FINEST = 64;

/**
 * "Ø 5/8 in", "Ø 12 mm", "Ø 12.04 ± 0.1 mm". In inches a fraction if one is within the error. With the error if the error is
 * not below the last figure.
 */
export function diameterText(radiusMm: number, radiusErrorMm: number, unit: LengthUnit): string {
  const diameterMm = 2 * radiusMm;
  const fractionMm = (Math.round((diameterMm * FINEST) / INCH) * INCH) / FINEST;
  const errorMm = 2 * radiusErrorMm;
  const isFine = errorMm < (unit === 'mm' ? 0.005 : 0.0005 * INCH);
  if (!isFine) return `Ø ${figuresIn(unit).withError(diameterMm, errorMm)} ${unit}`;
  if (unit === 'in' && Math.abs(diameterMm - fractionMm) <= errorMm)
    return `Ø ${formatInches(fractionMm, FINEST)}`;
  return `Ø ${trimmed(diameterMm, unit, unit === 'mm' ? 2 : 3)} ${unit}`;
}

const WHOLE_RAD = 2 * Math.PI;

/** "hole centre, Ø 5/8 in", without the part's name. */
export function kindText(what: Pick['what'], unit: LengthUnit): string {
  switch (what.kind) {
    case 'place':
      return what.joint === undefined ? 'point on the surface' : `centre of the ${what.joint}`;
    case 'edge':
      return 'edge';
    case 'ring': {
      const diameter = diameterText(what.radiusMm, what.radiusErrorMm, unit);
      const name = what.form === 'hole' ? 'hole centre' : 'centre of a round edge';
      return what.spanRad < WHOLE_RAD ? `${name} (an arc), ${diameter}` : `${name}, ${diameter}`;
    }
    case 'flat':
      return 'flat face';
    case 'cylinder': {
      const diameter = diameterText(what.radiusMm, what.radiusErrorMm, unit);
      return what.form === 'hole' ? `bore, ${diameter}` : `round side, ${diameter}`;
    }
  }
}

/** "hole centre, Ø 5/8 in, of Upright plates". */
export const pickText = (solids: readonly Solid[], { solid, what }: Pick, unit: LengthUnit): string =>
  what.kind === 'place' || what.kind === 'edge' || what.kind === 'flat'
    ? `${kindText(what, unit)} of ${solids[solid].label}`
    : `${kindText(what, unit)}, of ${solids[solid].label}`;

/** Middle of a feature at ride height. */
function middleOf(what: Feature | PlaceFeature): Vec3 {
  switch (what.kind) {
    case 'place':
      return what.at;
    case 'edge':
      return midpoint(what.from, what.to);
    case 'ring':
    case 'cylinder':
      return what.centre;
    case 'flat': {
      const [line] = what.outline;
      const count = line.length / 3;
      let sum: Vec3 = [0, 0, 0];
      for (let i = 0; i < line.length; i += 3)
        sum = [sum[0] + line[i], sum[1] + line[i + 1], sum[2] + line[i + 2]];
      return scale(sum, 1 / count);
    }
  }
}

/** "at −30.5, 765.2, 285.8 mm": forward, left, up at ride height in the shown corner. An edge has its length in front. */
export function whereText({ design }: OpenCorner, what: Pick['what'], figures: Figures): string {
  const xyz = shownPoint(design.corner.side, middleOf(what)).map(figures.place).join(', ');
  const at = `${xyz} ${figures.unit}`;
  return what.kind === 'edge'
    ? `${figures.placeWithUnit(distance(what.from, what.to))} long, at ${at}`
    : `at ${at}`;
}

const DEG = 180 / Math.PI;
/** An angle to a hundredth of a degree, its error rounded up. */
export function angleText({ rad, errorRad }: { rad: number; errorRad: number }): string {
  const deg = rad * DEG;
  const error = Math.ceil((errorRad * DEG + Math.abs(deg - Number(deg.toFixed(2)))) * 100) / 100;
  return `${decimal(deg, 2)} ± ${decimal(error, 2)}°`;
}
