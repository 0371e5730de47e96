import { usePose } from '../stores/poseStore.ts';
import { usePoseSlowly } from '../stores/usePoseSlowly.ts';
import { heldAt, hold, LETTERS, useHold } from './holdStore.ts';

/** Where the keyboard goes on when what it stood on has gone. */
export const HOLD_BUTTON_ID = 'hold-this-pose';

/** Puts the pose in hand by, to be compared with others. */
export function HoldButton() {
  const poses = useHold((state) => state.poses);
  const { travelMm, steer, view } = usePoseSlowly();
  const held = heldAt(poses, travelMm, steer);
  const why =
    view?.pose.kind === 'unreachable'
      ? 'The corner does not reach this pose'
      : held !== undefined
        ? `Held as ${held.letter} already`
        : poses.length >= LETTERS.length
          ? `${LETTERS.length} poses are held: let one go first`
          : undefined;
  return (
    <button
      type="button"
      id={HOLD_BUTTON_ID}
      // Not disabled: whoever has just pressed it goes on from it with the keyboard.
      aria-disabled={why !== undefined}
      title={why ?? 'Keep this pose in the picture, to compare others with it'}
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
