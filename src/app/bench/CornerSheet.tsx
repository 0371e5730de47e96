import { useId, useMemo } from 'react';
import { withValue } from '../../design/edit.ts';
import { fieldsAt } from '../../design/fields.ts';
import { valueAt } from '../../design/path.ts';
import type { LengthUnit } from '../../report/figures.ts';
import type { OpenCorner } from '../engine.ts';
import { useSession } from '../session.ts';
import { sourceInHand, useDocument } from '../stores/documentStore.ts';
import { useView } from '../stores/viewStore.ts';
import { FieldRows } from './FieldRows.tsx';
import { withFileUnit } from './fileUnit.ts';
import { PairRule } from './PairRule.tsx';
import { freePair, namesIn } from './pairRules.ts';
import { SheetFrame } from './SheetFrame.tsx';
import { SheetContext } from './sheetContext.ts';
import { useFileUnit } from './useFileUnit.ts';

const OWN = new Set<string | number>(['name', 'note', 'side', 'originHeight']);

/** Name, note, side, origin and unit of the corner, and its rules for single pairs. */
export function CornerSheet({ corner, onClose }: { corner: OpenCorner; onClose(): void }) {
  const session = useSession();
  const source = useDocument(sourceInHand);
  const fields = useMemo(() => fieldsAt(source, []).filter(({ key }) => OWN.has(key)), [source]);
  const rules = valueAt(source, ['pairs']);
  const count = Array.isArray(rules) ? rules.length : 0;
  const add = () => {
    const { pair } = useView.getState();
    // A pair that is measured: the file's first two parts may never be, as wheel and tyre.
    const chosen = corner.pairs.at(pair ?? 0);
    const ids = chosen === undefined ? [] : [chosen.a, chosen.b];
    const between = freePair(
      source,
      ids.map((index) => corner.solids[index].id),
    );
    if (between === undefined) return;
    void session.change(
      `Rule added for ${between.join(' and ')}`,
      withValue(source, ['pairs'], [...(Array.isArray(rules) ? rules : []), { between }]),
    );
  };
  return (
    <SheetFrame title="Corner and pair rules" onClose={onClose}>
      <SheetContext value={{ corner, part: undefined, owner: 'Corner' }}>
        <FieldRows fields={fields} />
        <UnitRow corner={corner} />
        <fieldset className="bench-group">
          <legend>Pair rules</legend>
          <p className="bench-kind">
            Every pair is checked against a default by its kinds. A rule sets the target of one pair, leaves
            it out with the reason, or says where contact is intended.
          </p>
          {Array.from({ length: count }, (_, at) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: a rule has no id; the file identifies it by its index
            <PairRule key={at} at={at} names={namesIn(source)} />
          ))}
          <button type="button" onClick={add}>
            Add rule
          </button>
        </fieldset>
      </SheetContext>
    </SheetFrame>
  );
}

/** The unit of lengths typed without one; changing it changes no length. */
function UnitRow({ corner }: { corner: OpenCorner }) {
  const session = useSession();
  const id = useId();
  const unit = useFileUnit();
  const sound = useDocument((state) => state.problems.length === 0);
  const change = (wanted: LengthUnit) => {
    const { inputs } = corner.design;
    const source = sourceInHand(useDocument.getState());
    void session.change(
      `Corner, unit: ${wanted}; lengths typed without one keep theirs`,
      withFileUnit(source, inputs, unit, wanted),
    );
  };
  return (
    <div
      className="bench-row"
      title="Of lengths typed without one. Changing it writes the unit of before to those, so that no length changes."
    >
      <label htmlFor={id}>Unit</label>
      <select
        id={id}
        value={unit ?? ''}
        disabled={!sound}
        onChange={(event) => change(event.target.value as LengthUnit)}
      >
        {unit === undefined && <option value="">none: each has its own</option>}
        <option value="in">inches</option>
        <option value="mm">mm</option>
      </select>
    </div>
  );
}
