import type { PartEntry, PartKind } from '../../design/schema.ts';
import { applyDirection, type Rigid } from '../../math/rigid.ts';
import type { BuildContext } from '../build.ts';
import type { BendRule, FlatPlate } from './flatPlate.ts';

/** Input of the function that lists the plates of a part. */
export interface PlateContext extends BuildContext {
  /** How bends are made; undefined if nobody gave it. */
  bend: BendRule | undefined;
  /** A length in the unit of the file, for sentences. */
  length(mm: number): string;
}

/** The flat plates of one entry, of the left corner. Throws an Error with a sentence for the user if dimensions contradict. */
export type PlateMaker<E extends PartEntry> = (entry: E, context: PlateContext) => FlatPlate[];

/** By kind of part; undefined for a kind that has no flat plate. */
export type PlateMakers = { [K in PartKind]: PlateMaker<Extract<PartEntry, { kind: K }>> | undefined };

/** The direction in the vehicle that is nearest to that of a plate's upper face, in words. */
export function faceInWords(vehicleFromPlate: Rigid): string {
  const normal = applyDirection(vehicleFromPlate, [0, 0, 1]);
  const axis = [0, 1, 2].reduce((best, k) => (Math.abs(normal[k]) > Math.abs(normal[best]) ? k : best), 0);
  const [backward, forward] = [
    ['rearward', 'forward'],
    ['inboard', 'outboard'],
    ['down', 'up'],
  ][axis];
  return `the face that looks ${normal[axis] < 0 ? backward : forward} in the vehicle`;
}
