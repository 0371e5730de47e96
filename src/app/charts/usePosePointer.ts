import { type PointerEvent, useRef } from 'react';
import { type Axis, valueAt } from '../kit/axis.ts';
import { usePose } from '../state/poseStore.ts';
import { useSession } from '../state/session.ts';

interface Pose {
  travelMm: number;
  steer: number;
}

const currentPose = (): Pose => {
  const { travelMm, steer } = usePose.getState();
  return { travelMm, steer };
};
const isCurrent = (pose: Pose): boolean => {
  const { travelMm, steer } = currentPose();
  return pose.travelMm === travelMm && pose.steer === steer;
};

/**
 * Pointer handlers that pose the corner along an axis. Hovering with the mouse previews the pose under the pointer, and
 * leaving restores the previous pose; pressing sets the pose. While the corner plays, hovering has no effect. If something
 * else poses the corner during a preview, that pose stays. `fractionOf`: fraction of the axis at px from the left.
 */
export function usePosePointer(fractionOf: (px: number) => number, axis: Axis, onMove: (mm: number) => void) {
  const session = useSession();
  /** The pose before the preview, and the previewed pose. */
  const preview = useRef<{ previous: Pose; shown: Pose }>(undefined);
  const moveToPointer = (event: PointerEvent<HTMLElement>) =>
    onMove(valueAt(axis, fractionOf(event.clientX - event.currentTarget.getBoundingClientRect().left)));
  const endPreview = () => {
    preview.current = undefined;
  };
  return {
    onPointerDown(event: PointerEvent<HTMLElement>) {
      event.currentTarget.setPointerCapture(event.pointerId);
      usePose.setState({ playing: false });
      endPreview();
      moveToPointer(event);
    },
    onPointerMove(event: PointerEvent<HTMLElement>) {
      if (event.currentTarget.hasPointerCapture(event.pointerId)) return moveToPointer(event);
      if (event.pointerType !== 'mouse' || usePose.getState().playing) return;
      const previous =
        preview.current !== undefined && isCurrent(preview.current.shown)
          ? preview.current.previous
          : currentPose();
      moveToPointer(event);
      preview.current = { previous, shown: currentPose() };
    },
    onPointerUp: endPreview,
    onPointerLeave() {
      if (preview.current !== undefined && isCurrent(preview.current.shown))
        session.moveTo(preview.current.previous.travelMm, preview.current.previous.steer);
      endPreview();
    },
  };
}
