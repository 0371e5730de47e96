import type { BufferGeometry } from 'three';
import { create } from 'zustand';
import type { OpenCorner } from '../engine.ts';
import type { Shade } from './shadeCorner.ts';

/** One surface made ready to be drawn with its tint. */
export interface ShadedSurface extends Omit<Shade, 'sampled'> {
  /** Undefined for a part with nothing near it. */
  geometry: BufferGeometry | undefined;
  betweenMm: number;
  samples: number;
}

interface ShadingState {
  /** The corner that all this is about: of another nothing is shown. */
  corner: OpenCorner | undefined;
  /** By index of the solid, at the pose on screen; those done so far. */
  surfaces: ReadonlyMap<number, ShadedSurface>;
  state: 'waiting' | 'measuring' | 'done';
  failure: string | undefined;
  /** The shaders that surfaces are drawn with are made. */
  shadersMade: boolean;
  /** Clearance drawn under the pointer. */
  pointedMm: number | undefined;
}

export const useShading = create<ShadingState>(() => ({
  corner: undefined,
  surfaces: new Map(),
  state: 'waiting',
  failure: undefined,
  shadersMade: false,
  pointedMm: undefined,
}));

/** Drops what was measured, and all that the graphics card holds of it. */
export function dropSurfaces(): void {
  const { surfaces, state } = useShading.getState();
  // Nothing is told at every frame of a motion.
  if (surfaces.size === 0 && state === 'waiting') return;
  for (const { geometry } of surfaces.values()) geometry?.dispose();
  useShading.setState({ surfaces: new Map(), state: 'waiting', pointedMm: undefined });
}
