import { useEffect } from 'react';
import { prefersReducedMotion } from '../kit/tokens.ts';
import type { OpenCorner } from '../state/engine.ts';
import { usePose } from '../state/poseStore.ts';
import { type Session, useSession } from '../state/session.ts';
import { cyclePlace } from './playPath.ts';

/** Plays the corner through bump and droop, straight ahead and at each lock, until stopped. */
export function PlayButton({ corner }: { corner: OpenCorner }) {
  const session = useSession();
  const playing = usePose((pose) => pose.playing);
  useEffect(() => (playing ? play(corner, session) : undefined), [playing, corner, session]);
  return (
    <button
      type="button"
      className="play"
      aria-pressed={playing}
      aria-label="Cycle travel and steer"
      title={playing ? 'Stop the cycle' : 'Cycle bump and droop, straight ahead and at each lock'}
      onClick={() => usePose.setState({ playing: !playing })}
    >
      <svg viewBox="0 0 16 16" width="16" height="16" aria-hidden="true">
        <path d={playing ? 'M4 3h3v10H4zM9 3h3v10H9z' : 'M4 2.500l9 5.500-9 5.500z'} />
      </svg>
    </button>
  );
}

/** Moves the pose frame by frame from the current pose; returns a function that stops it. */
function play(corner: OpenCorner, session: Session): () => void {
  const { bump, droop } = corner.design.corner.suspension.travel;
  const { travelMm, steer } = usePose.getState();
  const half = travelMm > 0 ? bump : droop;
  const start = { travel: half === 0 ? 0 : travelMm / half, steer };
  const eased = !prefersReducedMotion();
  const startMs = performance.now();
  let frame = requestAnimationFrame(function move(now) {
    const place = cyclePlace(start, Math.max(0, now - startMs) / 1000, eased);
    session.moveTo(place.travel * (place.travel > 0 ? bump : droop), place.steer);
    frame = requestAnimationFrame(move);
  });
  return () => cancelAnimationFrame(frame);
}
