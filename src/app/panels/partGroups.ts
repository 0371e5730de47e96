import type { Carrier } from '../../design/schema.ts';
import type { Solid } from '../../solids/solid.ts';

/** How parts are listed: by what they move with. */
const GROUPS: readonly (readonly [string, readonly Carrier[]])[] = [
  ['Turns with the wheel', ['wheel']],
  ['Upright', ['upright']],
  ['Lower arm', ['lowerArm']],
  ['Upper arm', ['upperArm']],
  ['Tie rod and rack', ['tieRod', 'rack']],
  ['Damper', ['damperBody', 'damperRod']],
  ['Chassis', ['chassis']],
];

export interface PartGroup {
  title: string;
  solids: Solid[];
}

/** The solids under the headings of what they move with; headings without any are left out. */
export const partGroups = (solids: readonly Solid[]): PartGroup[] =>
  GROUPS.map(([title, carriers]) => ({
    title,
    solids: solids.filter((solid) => carriers.includes(solid.carrier)),
  })).filter((group) => group.solids.length > 0);
