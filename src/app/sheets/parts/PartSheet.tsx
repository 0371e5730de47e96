import { useMemo, useState } from 'react';
import { valuesIn, withCopy, withoutPart } from '../../../design/edit.ts';
import { type Field, fieldsAt } from '../../../design/fields.ts';
import { type Path, pathText } from '../../../design/path.ts';
import type { LengthUnit } from '../../../report/figures.ts';
import { withUnit } from '../../kit/inputText.ts';
import { SheetFrame } from '../../kit/SheetFrame.tsx';
import { currentSource, useDocument } from '../../state/documentStore.ts';
import type { OpenCorner } from '../../state/engine.ts';
import { assumedText, shownText, unitInWords } from '../../state/fieldText.ts';
import { newProblem } from '../../state/partEdits.ts';
import { entriesOf, idOf, kindNameOf, nameOf } from '../../state/partEntries.ts';
import { useSession } from '../../state/session.ts';
import { useFileUnit } from '../../state/useFileUnit.ts';
import { useView } from '../../state/viewStore.ts';
import { FieldRows } from './FieldRows.tsx';
import { FixedRow } from './FixedRow.tsx';
import { IdRow } from './IdRow.tsx';
import { SheetContext } from './sheetContext.ts';
import { cutsOf } from './sketch/cutsOf.ts';
import { PartSketch } from './sketch/PartSketch.tsx';
import { sketchOf } from './sketch/sketchOf.ts';
import { useLitInView } from './sketch/useLitInView.ts';

/** The text of a field, or its assumed value. */
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

/** Sheet of the selected part with every dimension as typed. `part`: index into the corner's parts. */
export function PartSheet({ corner, part, onClose }: PartSheetProps) {
  const session = useSession();
  const source = useDocument(currentSource);
  const fileUnit = useFileUnit();
  const unit = useView((view) => view.unit);
  const [lit, setLit] = useState<Path>();
  const [problem, setProblem] = useState<string>();
  const { id } = corner.design.corner.parts[part];
  const at = entriesOf(source).findIndex((entry) => idOf(entry) === id);
  const entry = entriesOf(source)[at];
  const fields = useMemo(
    () => (at < 0 ? [] : fieldsAt(source, ['parts', at]).filter(({ key }) => key !== 'id' && key !== 'kind')),
    [source, at],
  );
  const sketch = useMemo(() => sketchOf(corner.design.corner, part), [corner, part]);
  const cuts = useMemo(
    () =>
      sketch &&
      cutsOf(
        sketch,
        corner.solids.filter(({ partIndex }) => partIndex === part),
      ),
    [sketch, corner, part],
  );
  const text = textOf(fields, lit, unit, fileUnit);
  useLitInView(corner, part, sketch, lit?.slice(2).join('.'), text);
  if (at < 0)
    return (
      <SheetFrame title={id} onClose={onClose}>
        <p>This part is no longer in the file. The view shows it until the file is valid.</p>
      </SheetFrame>
    );
  const owner = nameOf(entry);
  const sheet = { corner, part, owner, onField: setLit };
  const propose = (label: string, changed: unknown) => {
    const why = newProblem(source, changed);
    setProblem(why);
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
      {problem !== undefined && (
        <p className="bench-problem" role="alert">
          The change would make the file invalid. {problem}
        </p>
      )}
      <SheetContext value={sheet}>
        <p className="bench-kind">
          {kindNameOf(entry)}. {unitInWords(fileUnit)}
        </p>
        {sketch !== undefined && (
          <PartSketch sketch={sketch} cuts={cuts} lit={lit?.slice(2).join('.')} text={text} />
        )}
        <IdRow at={at} id={id} />
        <FieldRows key={at} fields={fields} />
        <FixedRow path={['parts', at]} />
      </SheetContext>
    </SheetFrame>
  );
}
