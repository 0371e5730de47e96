import { normalize, type Vec3 } from '../../math/vec.ts';
import type { LengthUnit } from '../../units/lengthUnits.ts';
import { LengthError, parseLength } from '../../units/parseLength.ts';
import type { SpacePlane } from './planeCrossing.ts';

const AXES: Readonly<Record<string, Vec3>> = { x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] };

const HOW =
  'Give x=LENGTH, y=LENGTH or z=LENGTH, -x=LENGTH for the other side, or x,y,z:nx,ny,nz for a point and a normal';

/**
 * Reads a plane as typed: `z=900 mm` (a fender above that height), `-y=20 in` (a rail inboard of it), or a point and the normal
 * that points to the part: `0,600,900:0,0.2,1`. Lengths without a unit are in `unit`, left corner, vehicle axes. Throws a RangeError
 * with what is wrong and what to do.
 */
export function readPlane(text: string, unit: LengthUnit | undefined): SpacePlane {
  const wrong = () => new RangeError(`"${text}" is not a plane. ${HOW}.`);
  const length = (typed: string): number => {
    try {
      return parseLength(typed.trim(), unit === undefined ? {} : { unit }).mm;
    } catch (error) {
      throw error instanceof LengthError ? new RangeError(`"${text}": ${error.message}. ${HOW}.`) : error;
    }
  };
  const axis = /^([-−]?)([xyz])\s*=(.*)$/i.exec(text);
  if (axis !== null) {
    const [, minus, name, typed] = axis;
    const along = AXES[name.toLowerCase()];
    const mm = length(typed);
    const sense = minus === '' ? 1 : -1;
    return {
      label: text,
      point: [along[0] * mm, along[1] * mm, along[2] * mm],
      normal: [sense * along[0], sense * along[1], sense * along[2]],
    };
  }
  const [point, normal, ...more] = text.split(':').map((part) => part.split(','));
  if (more.length > 0 || point.length !== 3 || normal?.length !== 3) throw wrong();
  const direction = normal.map(Number);
  if (!direction.every(Number.isFinite) || Math.hypot(...direction) === 0) throw wrong();
  return {
    label: text,
    point: point.map(length) as unknown as Vec3,
    normal: normalize(direction as unknown as Vec3),
  };
}
