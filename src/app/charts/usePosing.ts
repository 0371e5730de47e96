import { type PointerEvent, useRef } from 'react';
import { type Axis, valueAt } from '../pad/axis.ts';
import { useSession } from '../session.ts';
import { usePose } from '../stores/poseStore.ts';

interface Pose {
  travelMm: number;
  steer: number;
}

/**
 * What a pointer does along an axis: over it, the corner goes to where it points, and back when it leaves; pressed, the
 * corner stays there. While the corner plays, a pointer passing over is not heeded. `fractionOf`: of px from the left.
 */
export function usePosing(fractionOf: (px: number) => number, axis: Axis, onMove: (mm: number) => void) {
  const session = useSession();
  /** Where the corner stood before a look. */
  const stood = useRef<Pose>(undefined);
  const follow = (event: PointerEvent<HTMLElement>) =>
    onMove(valueAt(axis, fractionOf(event.clientX - event.currentTarget.getBoundingClientRect().left)));
  const stay = () => {
    stood.current = undefined;
  };
  return {
    onPointerDown(event: PointerEvent<HTMLElement>) {
      event.currentTarget.setPointerCapture(event.pointerId);
      usePose.setState({ playing: false });
      stay();
      follow(event);
    },
    onPointerMove(event: PointerEvent<HTMLElement>) {
      if (event.currentTarget.hasPointerCapture(event.pointerId)) return follow(event);
      const { playing, travelMm, steer } = usePose.getState();
      if (event.pointerType !== 'mouse' || playing) return;
      stood.current ??= { travelMm, steer };
      follow(event);
    },
    onPointerUp: stay,
    onPointerLeave() {
      if (stood.current !== undefined) session.moveTo(stood.current.travelMm, stood.current.steer);
      stay();
    },
  };
}
