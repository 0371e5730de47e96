import { useEffect, useState } from 'react';
import { usePose } from './poseStore.ts';

/** Read-outs update at most ten times a second. */
const INTERVAL_MS = 100;

type Pose = ReturnType<typeof usePose.getState>;

/** The pose, throttled for text: at most one render per interval while it moves, and always the last pose. */
export function useThrottledPose(): Pose {
  const [pose, setPose] = useState(usePose.getState);
  useEffect(() => {
    let timer: ReturnType<typeof setTimeout> | undefined;
    let shownAt = 0;
    const show = () => {
      timer = undefined;
      shownAt = performance.now();
      setPose(usePose.getState());
    };
    show();
    const stop = usePose.subscribe(() => {
      timer ??= setTimeout(show, Math.max(0, INTERVAL_MS - (performance.now() - shownAt)));
    });
    return () => {
      stop();
      clearTimeout(timer);
    };
  }, []);
  return pose;
}
