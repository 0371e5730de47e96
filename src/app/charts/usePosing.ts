import { type PointerEvent, useRef } from 'react';
import { type Axis, valueAt } from '../pad/axis.ts';
import { useSession } from '../session.ts';
import { usePose } from '../stores/poseStore.ts';

interface Pose {
  travelMm: number;
  steer: number;
}

const poseInHand = (): Pose => {
  const { travelMm, steer } = usePose.getState();
  return { travelMm, steer };
};
const isInHand = (pose: Pose): boolean => {
  const { travelMm, steer } = poseInHand();
  return pose.travelMm === travelMm && pose.steer === steer;
};

/**
 * What a pointer does along an axis: over it, the corner goes to where it points, and back when it leaves; pressed, the
 * corner stays there. While the corner plays, a pointer passing over is not heeded; where something else has posed the
 * corner during a look, it stays there. `fractionOf`: of px from the left.
 */
export function usePosing(fractionOf: (px: number) => number, axis: Axis, onMove: (mm: number) => void) {
  const session = useSession();
  /** Where the corner stood before a look, and where it goes to. */
  const look = useRef<{ stood: Pose; at: Pose }>(undefined);
  const follow = (event: PointerEvent<HTMLElement>) =>
    onMove(valueAt(axis, fractionOf(event.clientX - event.currentTarget.getBoundingClientRect().left)));
  const stay = () => {
    look.current = undefined;
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
      if (event.pointerType !== 'mouse' || usePose.getState().playing) return;
      const stood =
        look.current !== undefined && isInHand(look.current.at) ? look.current.stood : poseInHand();
      follow(event);
      look.current = { stood, at: poseInHand() };
    },
    onPointerUp: stay,
    onPointerLeave() {
      if (look.current !== undefined && isInHand(look.current.at))
        session.moveTo(look.current.stood.travelMm, look.current.stood.steer);
      stay();
    },
  };
}
