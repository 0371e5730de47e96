import { useFrame, useThree } from '@react-three/fiber';
import { type RefObject, useCallback, useEffect } from 'react';
import { Vector3 } from 'three';
import type { Vec3 } from '../../math/vec.ts';
import { usePose } from '../state/poseStore.ts';
import { useView } from '../state/viewStore.ts';
import type { OverlayHandle } from './DimensionOverlay.tsx';
import type { Place } from './dimensionDrawing.ts';
import { onOverlayMounted } from './overlayMounted.ts';

/** Redraws the overlays with each frame, and without a frame when a pose is measured or an overlay is mounted. */
export function OverlayDriver({ handles }: { handles: readonly RefObject<OverlayHandle | null>[] }) {
  const invalidate = useThree((state) => state.invalidate);
  const get = useThree((state) => state.get);
  const draw = useCallback(() => {
    const { camera, size } = get();
    const point = new Vector3();
    const project = (p: Vec3): Place => {
      point.set(...p).project(camera);
      return { x: ((point.x + 1) / 2) * size.width, y: ((1 - point.y) / 2) * size.height };
    };
    for (const handle of handles) handle.current?.draw(project);
  }, [get, handles]);

  useEffect(() => {
    const stops = [
      usePose.subscribe((now, before) => {
        if (now.measured !== before.measured) draw();
      }),
      useView.subscribe(() => invalidate()),
      onOverlayMounted(draw),
    ];
    return () => {
      for (const stop of stops) stop();
    };
  }, [draw, invalidate]);

  useFrame(draw);
  return null;
}
