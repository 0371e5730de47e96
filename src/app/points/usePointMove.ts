import { withGiven } from '../../design/assumed.ts';
import { useSession } from '../session.ts';
import { sourceInHand, useDocument } from '../stores/documentStore.ts';
import type { ShownPoint } from './pointsOf.ts';

export const AXIS_NAMES = ['X', 'Y', 'Z'] as const;

/** What coordinates are to be, by axis. */
export type Moved = readonly (readonly [axis: number, text: string])[];

let holds = 0;

/** Moves a point in the file: a hold of it, or a run of steps, is one change. */
export function usePointMove() {
  const session = useSession();
  const move = ({ path, name }: ShownPoint, moved: Moved, merge: string, held: boolean) => {
    const source = moved.reduce<unknown>(
      (file, [axis, text]) => withGiven(file, [...path, axis], text),
      sourceInHand(useDocument.getState()),
    );
    const told = moved.map(([axis, text]) => `${AXIS_NAMES[axis]} ${text}`).join(', ');
    void session.change(`${name} moved: ${told}`, source, merge, held);
  };
  return {
    /** The name of a hold that begins. */
    hold: () => `hold ${++holds}`,
    move,
    /** Takes back what a hold changed. */
    letGo(merge: string) {
      const { changes, now } = useDocument.getState();
      if (changes[now]?.merge === merge) void session.undo();
    },
    /** Stands the corner at ride height, where its points are those of the file. */
    toRideHeight: () => session.moveTo(0, 0),
  };
}
