import type { Builders } from '../solids/build.ts';
import { buildBolts } from './bolts/build.ts';
import { buildBox } from './box/build.ts';
import { buildCaliper } from './caliper/build.ts';
import { buildControlArm } from './controlArm/build.ts';
import { buildDamper } from './damper/build.ts';
import { buildHub } from './hub/build.ts';
import { buildJoint } from './joint/build.ts';
import { buildPlate } from './plate/build.ts';
import { buildRotor } from './rotor/build.ts';
import { buildSpacer } from './spacer/build.ts';
import { buildTieRod } from './tieRod/build.ts';
import { buildTube } from './tube/build.ts';
import { buildTyre } from './tyre/build.ts';
import { buildUpright } from './upright/build.ts';
import { buildWheel } from './wheel/build.ts';

/** Builder of each kind of part. */
export const BUILDERS: Builders = {
  wheel: buildWheel,
  tyre: buildTyre,
  hub: buildHub,
  spacer: buildSpacer,
  rotor: buildRotor,
  caliper: buildCaliper,
  upright: buildUpright,
  controlArm: buildControlArm,
  joint: buildJoint,
  tieRod: buildTieRod,
  damper: buildDamper,
  bolts: buildBolts,
  tube: buildTube,
  box: buildBox,
  plate: buildPlate,
};
