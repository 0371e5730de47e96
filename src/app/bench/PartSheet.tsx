import { useMemo, useState } from 'react';
import { valuesIn, withCopy, withoutPart } from '../../design/edit.ts';
import { type Field, fieldsAt } from '../../design/fields.ts';
import { type Path, pathText } from '../../design/path.ts';
import type { LengthUnit } from '../../report/figures.ts';
import type { OpenCorner } from '../engine.ts';
import { withUnit } from '../panels/inputText.ts';
import { useSession } from '../session.ts';
import { sourceInHand, useDocument } from '../stores/documentStore.ts';
import { useView } from '../stores/viewStore.ts';
import { FieldRows } from './FieldRows.tsx';
import { assumedText, shownText, unitInWords } from './fieldText.ts';
import { IdRow } from './IdRow.tsx';
import { objection } from './partEdits.ts';
import { entriesOf, idOf, kindNameOf, nameOf } from './partOf.ts';
import { SheetFrame } from './SheetFrame.tsx';
import { SheetContext } from './sheetContext.ts';
import { PartSketch } from './sketch/PartSketch.tsx';
import { sketchOf } from './sketch/sketchOf.ts';
import { useLitInView } from './sketch/useLitInView.ts';
import { useFileUnit } from './useFileUnit.ts';

/** What stands in a field, or is assumed there. */
function textOf(
  fields: readonly Field[],
  path: Path | undefined,
  unit: LengthUnit,
  fileUnit: LengthUnit | undefined,
): string {
  const text = path && pathText(path);
  const field = valuesIn(fields).find((one) => pathText(one.path) === text);
  if (field === undefined) return '';
  const typed = shownText(field) || assumedText(field, unit);
  return field.kind === 'length' ? withUnit(typed, fileUnit) : typed;
}

interface PartSheetProps {
  corner: OpenCorner;
  part: number;
  onClose(): void;
}

/** The part in hand, every dimension as typed, to be changed. `part` is an index into the corner's parts. */
export function PartSheet({ corner, part, onClose }: PartSheetProps) {
  const session = useSession();
  const source = useDocument(sourceInHand);
  const fileUnit = useFileUnit();
  const unit = useView((view) => view.unit);
  const [lit, setLit] = useState<Path>();
  const [refused, setRefused] = useState<string>();
  const { id } = corner.design.corner.parts[part];
  const at = entriesOf(source).findIndex((entry) => idOf(entry) === id);
  const entry = entriesOf(source)[at];
  const fields = useMemo(
    () => (at < 0 ? [] : fieldsAt(source, ['parts', at]).filter(({ key }) => key !== 'id' && key !== 'kind')),
    [source, at],
  );
  const sketch = useMemo(() => sketchOf(corner.design.corner, part), [corner, part]);
  const text = textOf(fields, lit, unit, fileUnit);
  useLitInView(corner, part, sketch, lit?.slice(2).join('.'), text);
  if (at < 0)
    return (
      <SheetFrame title={id} onClose={onClose}>
        <p>This part is not in the file any more. It stands on the bench until the file is sound.</p>
      </SheetFrame>
    );
  const owner = nameOf(entry);
  const sheet = { corner, part, owner, onField: setLit };
  const propose = (label: string, changed: unknown) => {
    const why = objection(source, changed);
    setRefused(why);
    if (why === undefined) void session.change(label, changed);
  };
  return (
    <SheetFrame
      title={owner}
      onClose={onClose}
      tools={
        <>
          <button
            type="button"
            className="quiet"
            onClick={() => propose(`${owner}: copied`, withCopy(source, at))}
          >
            Copy
          </button>
          <button
            type="button"
            className="quiet"
            onClick={() => propose(`${owner}: removed`, withoutPart(source, at))}
          >
            Remove
          </button>
        </>
      }
    >
      {refused !== undefined && (
        <p className="bench-problem" role="alert">
          That cannot be done as the corner stands. {refused}
        </p>
      )}
      <SheetContext value={sheet}>
        <p className="bench-kind">
          {kindNameOf(entry)}. {unitInWords(fileUnit)}
        </p>
        {sketch !== undefined && <PartSketch sketch={sketch} lit={lit?.slice(2).join('.')} text={text} />}
        <IdRow at={at} id={id} />
        <FieldRows key={at} fields={fields} />
      </SheetContext>
    </SheetFrame>
  );
}
