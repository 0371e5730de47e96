import { bolts } from './bolts/workbench.ts';
import { box } from './box/workbench.ts';
import { caliper } from './caliper/workbench.ts';
import { controlArm } from './controlArm/workbench.ts';
import { damper } from './damper/workbench.ts';
import { hub } from './hub/workbench.ts';
import { joint } from './joint/workbench.ts';
import type { PartKind } from './kinds.ts';
import { plate } from './plate/workbench.ts';
import { rotor } from './rotor/workbench.ts';
import { spacer } from './spacer/workbench.ts';
import { tieRod } from './tieRod/workbench.ts';
import { tube } from './tube/workbench.ts';
import { tyre } from './tyre/workbench.ts';
import { upright } from './upright/workbench.ts';
import { wheel } from './wheel/workbench.ts';
import type { WorkbenchKind } from './workbenchKind.ts';

/** What the workbench needs to know of each kind of part. */
export const WORKBENCH_KINDS: { [K in PartKind]: WorkbenchKind<K> } = {
  wheel,
  tyre,
  hub,
  spacer,
  rotor,
  caliper,
  upright,
  controlArm,
  joint,
  tieRod,
  damper,
  bolts,
  tube,
  box,
  plate,
};
