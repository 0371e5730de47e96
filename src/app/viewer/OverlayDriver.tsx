import { useFrame, useThree } from '@react-three/fiber';
import { type RefObject, useEffect } from 'react';
import { Vector3 } from 'three';
import type { Vec3 } from '../../math/vec.ts';
import { usePose } from '../stores/poseStore.ts';
import { useView } from '../stores/viewStore.ts';
import type { OverlayHandle } from './DimensionOverlay.tsx';
import type { Place } from './dimensionDrawing.ts';

/** Keeps what is drawn over the picture in step with it, and asks for a frame when only the numbers have changed. */
export function OverlayDriver({ handles }: { handles: readonly RefObject<OverlayHandle | null>[] }) {
  const invalidate = useThree((state) => state.invalidate);
  useEffect(() => {
    const stops = [
      usePose.subscribe((now, before) => {
        if (now.measured !== before.measured) invalidate();
      }),
      useView.subscribe(() => invalidate()),
    ];
    return () => {
      for (const stop of stops) stop();
    };
  }, [invalidate]);

  useFrame(({ camera, size }) => {
    const point = new Vector3();
    const project = (p: Vec3): Place => {
      point.set(...p).project(camera);
      return { x: ((point.x + 1) / 2) * size.width, y: ((1 - point.y) / 2) * size.height };
    };
    for (const handle of handles) handle.current?.draw(project);
  });
  return null;
}
