import { bolts } from './bolts/kind.ts';
import { box } from './box/kind.ts';
import { caliper } from './caliper/kind.ts';
import { controlArm } from './controlArm/kind.ts';
import { damper } from './damper/kind.ts';
import { hub } from './hub/kind.ts';
import { joint } from './joint/kind.ts';
import { plate } from './plate/kind.ts';
import { rotor } from './rotor/kind.ts';
import { spacer } from './spacer/kind.ts';
import { tieRod } from './tieRod/kind.ts';
import { tube } from './tube/kind.ts';
import { tyre } from './tyre/kind.ts';
import { upright } from './upright/kind.ts';
import { wheel } from './wheel/kind.ts';

/** The kinds of parts, in the order in which a corner is assembled and lists show them. */
export const KINDS = {
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

export type PartKind = keyof typeof KINDS;

/** Kinds of solids that the parts are built as. */
export type SolidKind = { [K in PartKind]: keyof (typeof KINDS)[K]['solids'] }[PartKind];
