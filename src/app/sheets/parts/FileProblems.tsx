import { currentSource, useDocument } from '../../state/documentStore.ts';
import type { OpenCorner } from '../../state/engine.ts';
import { problemInWords } from '../../state/fieldText.ts';
import { entriesOf, nameOf } from '../../state/partEntries.ts';
import { goToPlace, partShown, problemPlaces } from '../../state/problemPlaces.ts';
import { useSession } from '../../state/session.ts';
import { useView } from '../../state/viewStore.ts';

/** Problems of values that no sheet has a field for; they are listed here. */
const HAS_NO_FIELD = /^(parts\[\d+\](\.(id|kind|assumed.*))?|suspension\.assumed.*|)$/;

/** States that the last valid corner is shown, and links to the wrong values. Empty while the file is valid. */
export function FileProblems({ corner }: { corner: OpenCorner }) {
  const session = useSession();
  const problems = useDocument((state) => state.problems);
  const source = useDocument(currentSource);
  const inHand = useView((view) => view.part);
  if (problems.length === 0) return <div role="status" />;
  const places = problemPlaces(source, problems).filter((place) => {
    const part = partShown(source, place, corner);
    return place.path[0] === 'parts' ? part !== undefined && part !== inHand : hasSheet(place.problems);
  });
  return (
    <div className="bench-unsound" role="status">
      <p>
        <b>{problems.length === 1 ? 'One value is' : `${problems.length} values are`} wrong.</b> The last
        valid corner is shown.
      </p>
      {problems
        .filter(({ path }) => HAS_NO_FIELD.test(path))
        .map(({ path, message }) => {
          const at = /^parts\[(\d+)\]/.exec(path)?.[1];
          const name = at === undefined ? path : nameOf(entriesOf(source)[Number(at)]);
          const words = problemInWords(message, source);
          return (
            <p key={`${path} ${message}`} className="bench-problem">
              {name === '' ? words : `${name}: ${words}`}
            </p>
          );
        })}
      <p>
        {places.map((place) => (
          <button key={place.path.join('.')} type="button" onClick={() => goToPlace(source, place, corner)}>
            Go to {place.path[0] === 'parts' ? place.name : place.name.toLowerCase()}
          </button>
        ))}
        <button type="button" onClick={() => void session.undo()}>
          Undo the change
        </button>
      </p>
    </div>
  );
}

/** Whether a sheet of the whole corner has a field for one of the problems. */
const hasSheet = (problems: readonly { path: string }[]): boolean =>
  problems.some(({ path }) => /^(suspension|pairs|name|note|side|unit|originHeight|measuredTo)\b/.test(path));
