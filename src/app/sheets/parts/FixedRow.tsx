import { useId } from 'react';
import { withValue } from '../../../design/edit.ts';
import { type Path, valueAt } from '../../../design/path.ts';
import { currentSource, useDocument } from '../../state/documentStore.ts';
import { useSession } from '../../state/session.ts';
import { useSheet } from './sheetContext.ts';

/** Values of the mark `fixed`, by what remedies may change. */
const MARKS = new Map<string, boolean | undefined>([
  ['usual values', undefined],
  ['every value', false],
  ['no value', true],
]);

/** Shown while the file lists the fixed values one by one. */
const LISTED = 'those not listed';

/** What the remedies study may change in a part, or in the suspension; `path`: its place in the file. */
export function FixedRow({ path }: { path: Path }) {
  const session = useSession();
  const { owner } = useSheet();
  const mark = useDocument((state) => valueAt(currentSource(state), [...path, 'fixed']));
  const id = useId();
  const held = [...MARKS].find(([, value]) => value === mark)?.[0] ?? LISTED;
  const choices = held === LISTED ? [LISTED, ...MARKS.keys()] : [...MARKS.keys()];
  const choose = (choice: string) => {
    const source = currentSource(useDocument.getState());
    void session.change(
      `${owner}: remedies may change ${choice}`,
      withValue(source, [...path, 'fixed'], MARKS.get(choice)),
    );
  };
  return (
    <div className="bench-row">
      <label htmlFor={id}>Remedies may change</label>
      <select
        id={id}
        value={held}
        title="Usual: parts that are bought or come from a donor stay as they are."
        onChange={({ target }) => choose(target.value)}
      >
        {choices.map((choice) => (
          <option key={choice}>{choice}</option>
        ))}
      </select>
    </div>
  );
}
