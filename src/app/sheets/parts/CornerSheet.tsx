import { useId, useMemo } from 'react';
import { type Assets, assetRecords } from '../../../design/assets.ts';
import { withValue } from '../../../design/edit.ts';
import { fieldsAt } from '../../../design/fields.ts';
import { valueAt } from '../../../design/path.ts';
import { counted, type LengthUnit } from '../../../report/figures.ts';
import { SheetFrame } from '../../kit/SheetFrame.tsx';
import { currentSource, useDocument } from '../../state/documentStore.ts';
import type { OpenCorner } from '../../state/engine.ts';
import { withFileUnit } from '../../state/fileUnit.ts';
import { useSession } from '../../state/session.ts';
import { useFileUnit } from '../../state/useFileUnit.ts';
import { useView } from '../../state/viewStore.ts';
import { FieldRows } from './FieldRows.tsx';
import { PairRule } from './PairRule.tsx';
import { freePair, namesIn } from './pairRules.ts';
import { SheetContext } from './sheetContext.ts';

const OWN = new Set<string | number>([
  'name',
  'note',
  'side',
  'originHeight',
  'measuredTo',
  'vehicle',
  'driveShaft',
  'brakeHose',
]);

/** Name, note, side, origin, ± of measured values and unit of the corner, vehicle, drive shaft, brake hose and pair rules. */
export function CornerSheet({ corner, onClose }: { corner: OpenCorner; onClose(): void }) {
  const session = useSession();
  const source = useDocument(currentSource);
  const fields = useMemo(() => fieldsAt(source, []).filter(({ key }) => OWN.has(key)), [source]);
  const rules = valueAt(source, ['pairs']);
  const count = Array.isArray(rules) ? rules.length : 0;
  const add = () => {
    const { pair } = useView.getState();
    // A pair that is measured: the file's first two parts may not be one, such as wheel and tyre.
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
        <AssetList assets={corner.design.assets} />
        <fieldset className="bench-group">
          <legend>Pair rules</legend>
          <p className="bench-kind">
            Every pair has a default target from the kinds of its parts. A rule sets the target of one pair,
            excludes the pair with a reason, or marks where contact is intended.
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

/** The files beside the corner file, which are saved with it. */
function AssetList({ assets }: { assets: Assets }) {
  if (assets.size === 0) return null;
  return (
    <fieldset className="bench-group">
      <legend>Files beside the corner</legend>
      {assetRecords(assets).map(({ name, bytes, sha256 }) => (
        <p key={name} className="bench-kind" title={`SHA-256 ${sha256}`}>
          {name}, {counted(bytes, 'byte')}
        </p>
      ))}
    </fieldset>
  );
}

/** The unit of lengths typed without one. A change of it changes no length. */
function UnitRow({ corner }: { corner: OpenCorner }) {
  const session = useSession();
  const id = useId();
  const unit = useFileUnit();
  const valid = useDocument((state) => state.problems.length === 0);
  const change = (next: LengthUnit) => {
    const { inputs } = corner.design;
    const source = currentSource(useDocument.getState());
    void session.change(
      `Corner, unit: ${next}; lengths without a unit keep theirs`,
      withFileUnit(source, inputs, unit, next),
    );
  };
  return (
    <div
      className="bench-row"
      title="Unit of lengths typed without one. If you change it, the old unit is written to those lengths, so that no length changes."
    >
      <label htmlFor={id}>Unit</label>
      <select
        id={id}
        value={unit ?? ''}
        disabled={!valid}
        onChange={(event) => change(event.target.value as LengthUnit)}
      >
        {unit === undefined && <option value="">none: each length has its own</option>}
        <option value="in">inches</option>
        <option value="mm">mm</option>
      </select>
    </div>
  );
}
