import { useMemo } from 'react';
import { withValue } from '../../../design/edit.ts';
import { type Field, fieldsAt, type ValueField } from '../../../design/fields.ts';
import { type Path, pathFrom, pathText, valueAt } from '../../../design/path.ts';
import { counted } from '../../../report/figures.ts';
import type { Problem } from '../../../units/problem.ts';
import { currentSource, useDocument } from '../../state/documentStore.ts';
import { unitInWords } from '../../state/fieldText.ts';
import { type ProblemPlace, problemPlaces } from '../../state/problemPlaces.ts';
import { useSession } from '../../state/session.ts';
import { useFileUnit } from '../../state/useFileUnit.ts';
import { FieldRow } from './FieldRows.tsx';
import { SheetContext } from './sheetContext.ts';
import { ValueRow } from './ValueRow.tsx';

/** Fields for the wrong values of a file that has no valid state to draw, each with its problem. */
export function RepairPanel() {
  const problems = useDocument((state) => state.problems);
  const source = useDocument(currentSource);
  const fileUnit = useFileUnit();
  const places = useMemo(() => problemPlaces(source, problems), [source, problems]);
  return (
    <aside className="parts-panel repair" aria-label="Wrong values">
      <div className="bench-unsound" role="status">
        <p>
          <b>{counted(problems.length, 'value is', 'values are')} wrong.</b> The corner is drawn once all are
          correct. {unitInWords(fileUnit)}
        </p>
      </div>
      <div className="bench-rows">
        {places.map((place) => (
          <RepairPlace key={pathText(place.path)} source={source} place={place} />
        ))}
      </div>
    </aside>
  );
}

function RepairPlace({ source, place }: { source: unknown; place: ProblemPlace }) {
  const { name, path, problems } = place;
  const fields = useMemo(() => fieldsAt(source, path), [source, path]);
  const wrong = fields.filter((field) => problems.some((problem) => isIn(problem, field.path)));
  const others = problems.filter((problem) => !wrong.some((field) => isIn(problem, field.path)));
  return (
    <SheetContext value={{ corner: undefined, part: undefined, owner: name }}>
      <fieldset className="bench-group">
        <legend>{name}</legend>
        {wrong.map((field) =>
          isEditable(field) ? (
            <FieldRow key={pathText(field.path)} field={field} within="" />
          ) : (
            <PlainRow key={pathText(field.path)} path={field.path} />
          ),
        )}
        {others.map((problem) => (
          <OtherProblem key={`${problem.path} ${problem.message}`} source={source} problem={problem} />
        ))}
      </fieldset>
    </SheetContext>
  );
}

const isIn = ({ path }: Problem, field: Path): boolean => {
  const steps = pathFrom(path);
  return steps !== undefined && field.every((step, at) => steps[at] === step);
};

/** Whether the sheets have an input for a field; a field with a single choice has none. */
const isEditable = (field: Field): boolean => !('choices' in field) || field.choices.length !== 1;

/** A value that is not in the schema, as plain text. */
function PlainRow({ path }: { path: Path }) {
  const typed = useDocument((state) => valueAt(currentSource(state), path));
  const field: ValueField = {
    path,
    key: path[path.length - 1],
    description: undefined,
    optional: true,
    typed,
    kind: 'text',
    fallback: undefined,
    choices: [],
  };
  const name = pathText(path);
  return <ValueRow field={field} name={name} spoken={name} />;
}

/** A problem of the whole file, or of a value without a field. The value can be edited as text or removed. */
function OtherProblem({ source, problem }: { source: unknown; problem: Problem }) {
  const session = useSession();
  const path = pathFrom(problem.path);
  const held = path && valueAt(source, path);
  if (path === undefined || held === undefined)
    return (
      <p className="bench-problem">
        {problem.path === '' ? problem.message : `${problem.path}: ${problem.message}`}
      </p>
    );
  return (
    <>
      {typeof held !== 'object' && <PlainRow path={path} />}
      {typeof held === 'object' && (
        <p className="bench-problem">
          {problem.path}: {problem.message}
        </p>
      )}
      <button
        type="button"
        onClick={() => void session.change(`${problem.path} removed`, withValue(source, path, undefined))}
      >
        Remove {problem.path}
      </button>
    </>
  );
}
