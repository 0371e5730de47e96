import { create } from 'zustand';
import type { RegionPoint } from '../../studies/limits/usableRegion.ts';

/** Edges of the part of travel and lock that can be used, of one state of a corner. None if nothing ends it. */
export interface Usable {
  designHash: string;
  edges: readonly (readonly RegionPoint[])[];
  /** The numbered stretches of the edges: where the map shows the number, and what bounds the stretch. */
  stretches: readonly { number: number; at: RegionPoint; bound: string }[];
}

/** The usable part that the search for stops has found. */
export const useUsable = create<{ usable: Usable | undefined }>(() => ({ usable: undefined }));

/** The usable part of a corner; undefined if it was not found for this state of the corner. */
export const useUsableOf = (designHash: string): Usable | undefined =>
  useUsable(({ usable }) => (usable?.designHash === designHash ? usable : undefined));
