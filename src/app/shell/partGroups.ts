import type { Suspension } from '../../design/schema.ts';
import { layoutOf } from '../../layouts/layoutOf.ts';
import type { Solid } from '../../solids/solid.ts';

export interface PartGroup {
  title: string;
  solids: Solid[];
}

/** The solids by carrier group; without empty groups. */
export const partGroups = (suspension: Suspension, solids: readonly Solid[]): PartGroup[] =>
  layoutOf(suspension)
    .partGroups.map(([title, carriers]) => ({
      title,
      solids: solids.filter((solid) => carriers.includes(solid.carrier)),
    }))
    .filter((group) => group.solids.length > 0);
