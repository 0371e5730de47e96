import type { OpenCorner } from '../engine.ts';
import { useSession } from '../session.ts';
import { sourceInHand, useDocument } from '../stores/documentStore.ts';
import { useView } from '../stores/viewStore.ts';
import { problemInWords } from './fieldText.ts';
import { entriesOf, nameOf } from './partOf.ts';
import { goToPlace, partShown, problemPlaces } from './problemPlaces.ts';

/** What no sheet has an input for is told here. */
const HAS_NO_FIELD = /^(parts\[\d+\](\.(id|kind|assumed.*))?|suspension\.assumed.*|)$/;

/** Says that what is shown is not what was typed last, and where that must be mended. Empty while the file is sound. */
export function FileProblems({ corner }: { corner: OpenCorner }) {
  const session = useSession();
  const problems = useDocument((state) => state.problems);
  const source = useDocument(sourceInHand);
  const inHand = useView((view) => view.part);
  if (problems.length === 0) return <div role="status" />;
  const places = problemPlaces(source, problems).filter((place) => {
    const part = partShown(source, place, corner);
    return place.path[0] === 'parts' ? part !== undefined && part !== inHand : hasSheet(place.problems);
  });
  return (
    <div className="bench-unsound" role="status">
      <p>
        <b>{problems.length === 1 ? 'One value is' : `${problems.length} values are`} wrong.</b> What is shown
        is the last sound corner.
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
  problems.some(({ path }) => /^(suspension|pairs|name|note|side|unit|originHeight)\b/.test(path));
