import { valueAt } from '../../design/path.ts';
import type { OpenCorner } from '../engine.ts';
import { useSession } from '../session.ts';
import { sourceInHand, useDocument } from '../stores/documentStore.ts';
import { useView } from '../stores/viewStore.ts';
import { problemInWords } from './fieldText.ts';
import { entriesOf, idOf, nameOf } from './partOf.ts';

/** What no sheet has an input for is told here. */
const HAS_NO_FIELD = /^(parts\[\d+\](\.(id|kind|assumed.*))?|suspension\.assumed.*|)$/;

interface FileProblemsProps {
  corner: OpenCorner;
  onSuspension(): void;
  onCorner(): void;
}

/** Says that what is shown is not what was typed last, and where that must be mended. Empty while the file is sound. */
export function FileProblems({ corner, onSuspension, onCorner }: FileProblemsProps) {
  const session = useSession();
  const problems = useDocument((state) => state.problems);
  const source = useDocument(sourceInHand);
  const inHand = useView((view) => view.part);
  if (problems.length === 0) return <div role="status" />;
  const places = new Map<string, () => void>();
  for (const { path } of problems) {
    const at = /^parts\[(\d+)\]/.exec(path)?.[1];
    if (at !== undefined) {
      const entry = entriesOf(source)[Number(at)];
      const part = corner.design.corner.parts.findIndex(({ id }) => id === idOf(entry));
      if (part >= 0 && part !== inHand) places.set(nameOf(entry), () => useView.setState({ part }));
    } else if (path.startsWith('suspension') && valueAt(source, ['suspension']) !== undefined)
      places.set('points and suspension', onSuspension);
    else if (/^(pairs|name|note|side|unit|originHeight)\b/.test(path))
      places.set('the corner and its pair rules', onCorner);
  }
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
        {[...places].map(([name, go]) => (
          <button key={name} type="button" onClick={go}>
            Go to {name}
          </button>
        ))}
        <button type="button" onClick={() => void session.undo()}>
          Undo the change
        </button>
      </p>
    </div>
  );
}
