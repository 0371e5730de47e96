import type { BufferGeometry } from 'three';
import { create } from 'zustand';
import type { OpenCorner } from '../../state/engine.ts';
import type { Shade } from '../../workers/tint/shadeCorner.ts';

/** One tinted surface, ready to draw. */
export interface ShadedSurface extends Omit<Shade, 'sampled'> {
  /** Undefined if no other part is near. */
  geometry: BufferGeometry | undefined;
  betweenMm: number;
  samples: number;
}

interface ShadingState {
  /** The corner that the surfaces belong to. */
  corner: OpenCorner | undefined;
  /** Surfaces done so far at the shown pose, by index of the solid. */
  surfaces: ReadonlyMap<number, ShadedSurface>;
  state: 'waiting' | 'measuring' | 'done';
  failure: string | undefined;
  /** Whether the shaders are compiled. */
  shadersMade: boolean;
  /** Tinted clearance under the pointer, mm. */
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

/** Drops the surfaces and their buffers on the graphics card. */
export function dropSurfaces(): void {
  const { surfaces, state } = useShading.getState();
  // No store update at every frame of a motion.
  if (surfaces.size === 0 && state === 'waiting') return;
  for (const { geometry } of surfaces.values()) geometry?.dispose();
  useShading.setState({ surfaces: new Map(), state: 'waiting', pointedMm: undefined });
}
