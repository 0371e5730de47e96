import { usePose } from '../../state/poseStore.ts';
import { useThrottledPose } from '../../state/useThrottledPose.ts';
import { heldAt, hold, LETTERS, useHold } from './holdStore.ts';

/** Takes the focus when the button that had it is removed. */
export const HOLD_BUTTON_ID = 'hold-this-pose';

/** Holds the current pose, to compare it with others. */
export function HoldButton() {
  const poses = useHold((state) => state.poses);
  const { travelMm, steer, view } = useThrottledPose();
  const held = heldAt(poses, travelMm, steer);
  const why =
    view?.pose.kind === 'unreachable'
      ? 'The corner cannot reach this pose'
      : held !== undefined
        ? `Already held as ${held.letter}`
        : poses.length >= LETTERS.length
          ? `${LETTERS.length} poses are held. Remove one first.`
          : undefined;
  return (
    <button
      type="button"
      id={HOLD_BUTTON_ID}
      // `disabled` would take the keyboard focus away right after a press.
      aria-disabled={why !== undefined}
      title={why ?? 'Keep this pose in the view to compare others with it'}
      onClick={() => {
        const now = usePose.getState();
        if (now.view?.pose.kind !== 'solved') return;
        usePose.setState({ playing: false });
        hold(now.travelMm, now.steer);
      }}
    >
      Hold this pose
    </button>
  );
}
