import { create } from 'zustand';
import type { Mesh } from '../../solids/solid.ts';

/** The space that tyre and wheel of one state of a corner sweep. In vehicle axes of the left corner. */
export interface ShownSpace {
  designHash: string;
  mesh: Mesh;
}

/** The space that the view shows. */
export const useSpace = create<{ space: ShownSpace | undefined }>(() => ({ space: undefined }));
