import { withGiven } from '../../../design/assumed.ts';
import { currentSource, useDocument } from '../../state/documentStore.ts';
import { AXIS_NAMES } from '../../state/fieldText.ts';
import { useSession } from '../../state/session.ts';
import type { ShownPoint } from './pointsOf.ts';

/** New texts of coordinates, by axis. */
export type Moved = readonly (readonly [axis: number, text: string])[];

let drags = 0;

/** Moves a point in the file. One drag, or one run of steps, is one change. */
export function usePointMove() {
  const session = useSession();
  const move = ({ path, name }: ShownPoint, moved: Moved, merge: string, held: boolean) => {
    const source = moved.reduce<unknown>(
      (file, [axis, text]) => withGiven(file, [...path, axis], text),
      currentSource(useDocument.getState()),
    );
    const text = moved.map(([axis, value]) => `${AXIS_NAMES[axis]} ${value}`).join(', ');
    void session.change(`${name} moved: ${text}`, source, merge, held);
  };
  return {
    /** Merge key of a new drag. */
    newDrag: () => `drag ${++drags}`,
    move,
    /** Undoes the change of a drag. */
    revert(merge: string) {
      const { changes, now } = useDocument.getState();
      if (changes[now]?.merge === merge) void session.undo();
    },
    /** Moves the corner to ride height, where its points are those of the file. */
    toRideHeight: () => session.moveTo(0, 0),
  };
}
