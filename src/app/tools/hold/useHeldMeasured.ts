import { useEffect } from 'react';
import { useCorner } from '../../state/cornerStore.ts';
import type { OpenCorner, Probe } from '../../state/engine.ts';
import { type HeldResult, releaseAllPoses, useHold } from './holdStore.ts';

/**
 * Solves and measures every held pose for the current corner, one after the other, and again when the corner changes.
 * Releases all held poses when another file is opened.
 */
export function useHeldMeasured(corner: OpenCorner): void {
  const poses = useHold((state) => state.poses);
  useEffect(
    () =>
      useCorner.subscribe((now, before) => {
        if (now.opened !== before.opened) releaseAllPoses();
      }),
    [],
  );
  useEffect(() => {
    const { corner: before, results: last } = useHold.getState();
    const results: Record<string, HeldResult> = before === corner ? { ...last } : {};
    for (const { letter, travelMm, steer } of poses) {
      if (results[letter] !== undefined) continue;
      const { pose } = corner.poseAt(travelMm, steer);
      results[letter] = {
        carriers: pose.kind === 'solved' ? pose.carriers : undefined,
        measured: undefined,
        failure: pose.kind === 'unreachable' ? `out of reach: ${pose.reason}` : undefined,
      };
    }
    useHold.setState({ corner, results });
    return measureAll(corner);
  }, [corner, poses]);
}

/** Measures the poses that have no result yet. Returns the function that stops it. */
function measureAll(corner: OpenCorner): () => void {
  let ended = false;
  let probe: Probe | undefined;
  const waiting = () => {
    const { poses, results } = useHold.getState();
    return poses.filter(
      ({ letter }) => results[letter]?.measured === undefined && results[letter]?.failure === undefined,
    );
  };
  const update = (letters: readonly string[], part: Partial<HeldResult>) =>
    useHold.setState(({ results }) => ({
      results: {
        ...results,
        ...Object.fromEntries(letters.map((letter) => [letter, { ...results[letter], ...part }])),
      },
    }));
  const measureNext = () => {
    const [next] = waiting();
    if (next !== undefined) probe?.request(next.travelMm, next.steer);
  };
  const fail = (failure: string) =>
    update(
      waiting().map(({ letter }) => letter),
      { failure },
    );
  if (waiting().length > 0)
    corner
      .probe((travelMm, steer, row) => {
        if (ended) return;
        const letters = waiting()
          .filter((pose) => pose.travelMm === travelMm && pose.steer === steer)
          .map(({ letter }) => letter);
        update(letters, { measured: { travelMm, steer, row } });
        measureNext();
      }, fail)
      .then(
        (made) => {
          if (ended) return made.end();
          probe = made;
          measureNext();
        },
        (error: Error) => {
          if (!ended) fail(error.message);
        },
      );
  return () => {
    ended = true;
    probe?.end();
  };
}
