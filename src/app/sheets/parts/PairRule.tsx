import { useId } from 'react';
import { withGiven } from '../../../design/assumed.ts';
import { withValue } from '../../../design/edit.ts';
import { fieldsAt } from '../../../design/fields.ts';
import { valueAt } from '../../../design/path.ts';
import { currentSource, useDocument } from '../../state/documentStore.ts';
import { useSession } from '../../state/session.ts';
import { FieldRows } from './FieldRows.tsx';
import type { RuleName } from './pairRules.ts';
import { useProblem } from './useProblem.ts';

interface PairRuleProps {
  /** Index in the file's rules. */
  at: number;
  names: readonly RuleName[];
}

/** One pair rule: its two parts and its settings. */
export function PairRule({ at, names }: PairRuleProps) {
  const session = useSession();
  const source = useDocument(currentSource);
  const path = ['pairs', at];
  const twice = useProblem([...path, 'between']);
  const fields = fieldsAt(source, path).filter(({ key }) => key !== 'between');
  const title = `Rule ${at + 1}`;
  const remove = () => {
    const rules = valueAt(source, ['pairs']) as unknown[];
    const left = rules.filter((_, index) => index !== at);
    void session.change(
      `${title} removed`,
      withValue(source, ['pairs'], left.length === 0 ? undefined : left),
    );
  };
  return (
    <fieldset className="bench-group">
      <legend>{title}</legend>
      <button
        type="button"
        className="quiet bench-remove"
        aria-label={`Remove ${title.toLowerCase()}`}
        onClick={remove}
      >
        Remove
      </button>
      <PartChoice at={at} end={0} name="Between" names={names} />
      <PartChoice at={at} end={1} name="and" names={names} />
      {twice !== undefined && (
        <p className="bench-problem" role="alert">
          {title} {twice}
        </p>
      )}
      <ShapeRow at={at} />
      <FieldRows fields={fields} within={`${title}, `} />
    </fieldset>
  );
}

function PartChoice({ at, end, name, names }: PairRuleProps & { end: 0 | 1; name: string }) {
  const session = useSession();
  const id = useId();
  const path = ['pairs', at, 'between', end];
  const held = useDocument((state) => String(valueAt(currentSource(state), path) ?? ''));
  const problem = useProblem(path);
  const known = names.some((one) => one.id === held);
  const change = (next: string) =>
    void session.change(
      `Rule ${at + 1}, ${end === 0 ? 'first' : 'second'} part: ${next}`,
      withGiven(currentSource(useDocument.getState()), path, next),
    );
  return (
    <div className="bench-row">
      <label htmlFor={id}>{name}</label>
      <select
        id={id}
        value={held}
        aria-label={`Rule ${at + 1}, ${end === 0 ? 'first' : 'second'} part`}
        aria-invalid={problem !== undefined}
        aria-describedby={problem === undefined ? undefined : `${id}-problem`}
        onChange={(event) => change(event.target.value)}
      >
        {!known && <option value={held}>{held}</option>}
        {names.map((one) => (
          <option key={one.id} value={one.id}>
            {one.name}
          </option>
        ))}
      </select>
      {problem !== undefined && (
        <p id={`${id}-problem`} className="bench-problem" role="alert">
          {held} {problem}
        </p>
      )}
    </div>
  );
}

/** Shape of the zone of intended contact. A change of shape keeps centre and radius. */
function ShapeRow({ at }: { at: number }) {
  const session = useSession();
  const id = useId();
  const path = ['pairs', at, 'zone'];
  const zone = useDocument((state) => valueAt(currentSource(state), path));
  if (zone === undefined) return null;
  const change = (shape: string) => {
    const { centre, radius } = zone as Record<string, unknown>;
    const flat = shape === 'slab' ? { axis: [0, 1, 0], thickness: 20 } : {};
    void session.change(
      `Rule ${at + 1}, shape of the zone: ${shape}`,
      withValue(currentSource(useDocument.getState()), path, { shape, centre, radius, ...flat }),
    );
  };
  return (
    <div className="bench-row">
      <label htmlFor={id}>Zone shape</label>
      <select
        id={id}
        value={String(valueAt(zone, ['shape']))}
        aria-label={`Rule ${at + 1}, shape of the zone`}
        onChange={(event) => change(event.target.value)}
      >
        <option value="sphere">sphere</option>
        <option value="slab">slab</option>
      </select>
    </div>
  );
}
