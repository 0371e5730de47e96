import { useEffect } from 'react';
import type { OpenCorner, Probe } from '../engine.ts';
import { useCorner } from '../stores/cornerStore.ts';
import { type HeldKnown, letAllGo, useHold } from './holdStore.ts';

/**
 * Has every held pose solved and measured in the corner in hand, one after the other; anew when the corner is changed. With
 * another file all are let go.
 */
export function useHeldMeasured(corner: OpenCorner): void {
  const poses = useHold((state) => state.poses);
  useEffect(
    () =>
      useCorner.subscribe((now, before) => {
        if (now.opened !== before.opened) letAllGo();
      }),
    [],
  );
  useEffect(() => {
    const { corner: before, known: then } = useHold.getState();
    const known: Record<string, HeldKnown> = before === corner ? { ...then } : {};
    for (const { letter, travelMm, steer } of poses) {
      if (known[letter] !== undefined) continue;
      const { pose } = corner.poseAt(travelMm, steer);
      known[letter] = {
        carriers: pose.kind === 'solved' ? pose.carriers : undefined,
        measured: undefined,
        failure: pose.kind === 'unreachable' ? `out of reach: ${pose.reason}` : undefined,
      };
    }
    useHold.setState({ corner, known });
    return measureAll(corner);
  }, [corner, poses]);
}

/** Measures what is not measured yet; gives the function that stops it. */
function measureAll(corner: OpenCorner): () => void {
  let ended = false;
  let probe: Probe | undefined;
  const waiting = () => {
    const { poses, known } = useHold.getState();
    return poses.filter(
      ({ letter }) => known[letter]?.measured === undefined && known[letter]?.failure === undefined,
    );
  };
  const tell = (letters: readonly string[], what: Partial<HeldKnown>) =>
    useHold.setState(({ known }) => ({
      known: {
        ...known,
        ...Object.fromEntries(letters.map((letter) => [letter, { ...known[letter], ...what }])),
      },
    }));
  const askNext = () => {
    const [next] = waiting();
    if (next !== undefined) probe?.ask(next.travelMm, next.steer);
  };
  const fail = (failure: string) =>
    tell(
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
        tell(letters, { measured: { travelMm, steer, row } });
        askNext();
      }, fail)
      .then(
        (made) => {
          if (ended) return made.end();
          probe = made;
          askNext();
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
