import type { PlateMakers } from '../solids/flatPlates/plateMaker.ts';
import { caliperFlatPlates } from './caliper/flatPlates.ts';
import { plateFlatPlates } from './plate/flatPlates.ts';
import { uprightFlatPlates } from './upright/flatPlates.ts';

/** What lists the flat plates of each kind of part. */
export const PLATE_MAKERS: PlateMakers = {
  wheel: undefined,
  tyre: undefined,
  hub: undefined,
  spacer: undefined,
  rotor: undefined,
  caliper: caliperFlatPlates,
  upright: uprightFlatPlates,
  controlArm: undefined,
  joint: undefined,
  tieRod: undefined,
  damper: undefined,
  bolts: undefined,
  tube: undefined,
  box: undefined,
  plate: plateFlatPlates,
};
