import { useId } from 'react';
import { withGiven } from '../../design/assumed.ts';
import { withValue } from '../../design/edit.ts';
import { fieldsAt } from '../../design/fields.ts';
import { valueAt } from '../../design/path.ts';
import { useSession } from '../session.ts';
import { sourceInHand, useDocument } from '../stores/documentStore.ts';
import { FieldRows } from './FieldRows.tsx';
import type { RuleName } from './pairRules.ts';
import { useProblem } from './useProblem.ts';

interface PairRuleProps {
  /** Place among the file's rules. */
  at: number;
  names: readonly RuleName[];
}

/** One rule for a pair: which two, and what holds for them. */
export function PairRule({ at, names }: PairRuleProps) {
  const session = useSession();
  const source = useDocument(sourceInHand);
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
  const held = useDocument((state) => String(valueAt(sourceInHand(state), path) ?? ''));
  const problem = useProblem(path);
  const known = names.some((one) => one.id === held);
  const change = (wanted: string) =>
    void session.change(
      `Rule ${at + 1}, ${end === 0 ? 'first' : 'second'} part: ${wanted}`,
      withGiven(sourceInHand(useDocument.getState()), path, wanted),
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

/** The shape of the zone in which contact is intended; its centre and radius stay when it is changed. */
function ShapeRow({ at }: { at: number }) {
  const session = useSession();
  const id = useId();
  const path = ['pairs', at, 'zone'];
  const zone = useDocument((state) => valueAt(sourceInHand(state), path));
  if (zone === undefined) return null;
  const change = (shape: string) => {
    const { centre, radius } = zone as Record<string, unknown>;
    const flat = shape === 'slab' ? { axis: [0, 1, 0], thickness: 20 } : {};
    void session.change(
      `Rule ${at + 1}, shape of the zone: ${shape}`,
      withValue(sourceInHand(useDocument.getState()), path, { shape, centre, radius, ...flat }),
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
