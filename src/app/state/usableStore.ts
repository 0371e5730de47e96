import { create } from 'zustand';
import type { RegionPoint } from '../../studies/limits/usableRegion.ts';

/** Edges of the part of travel and lock that can be used, of one state of a corner. None if nothing ends it. */
export interface Usable {
  designHash: string;
  edges: readonly (readonly RegionPoint[])[];
}

/** The usable part that the search for stops has found. */
export const useUsable = create<{ usable: Usable | undefined }>(() => ({ usable: undefined }));
