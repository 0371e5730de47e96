import { useEffect, useMemo, useRef } from 'react';
import { fieldsAt } from '../../../design/fields.ts';
import type { Path } from '../../../design/path.ts';
import { SheetFrame } from '../../kit/SheetFrame.tsx';
import { currentSource, useDocument } from '../../state/documentStore.ts';
import type { OpenCorner } from '../../state/engine.ts';
import { unitInWords } from '../../state/fieldText.ts';
import { useFileUnit } from '../../state/useFileUnit.ts';
import { useView } from '../../state/viewStore.ts';
import { pointKeyAt } from '../../tools/points/pointsOf.ts';
import { FieldRows } from './FieldRows.tsx';
import { FixedRow } from './FixedRow.tsx';
import { SheetContext } from './sheetContext.ts';

/** Sheet of the nine points, the damper's mounts, alignment, travel and steering. */
export function SuspensionSheet({ corner, onClose }: { corner: OpenCorner; onClose(): void }) {
  const source = useDocument(currentSource);
  const fields = useMemo(() => fieldsAt(source, ['suspension']), [source]);
  const fileUnit = useFileUnit();
  const point = useView((view) => view.point);
  const body = useRef<HTMLDivElement>(null);
  const onField = (path: Path | undefined) => {
    const key = pointKeyAt(path);
    if (key !== undefined) useView.setState({ point: key });
  };
  const sheet = { corner, part: undefined, owner: 'Suspension', onField, chosen: point };
  useEffect(() => {
    useView.setState({ pointsShown: true });
    return () => useView.setState({ pointsShown: false, point: undefined });
  }, []);
  useEffect(() => {
    const row = point === undefined ? undefined : body.current?.querySelector('[data-chosen=true]');
    if (row?.contains(document.activeElement) === false) row.scrollIntoView({ block: 'nearest' });
  }, [point]);
  return (
    <SheetFrame title="Points and suspension" onClose={onClose}>
      <SheetContext value={sheet}>
        <p className="bench-kind">
          At ride height, from the axle line, the centre line and the ground: X forward, Y to the left, Z up.
          Coordinates are those of a left corner. {unitInWords(fileUnit)}
        </p>
        <p className="bench-kind">
          The points are shown in the view. Choose one there or here. Drag it by its X, Y or Z handle, or by
          its middle in the plane most square to the view.
        </p>
        <div ref={body}>
          <FieldRows fields={fields} />
          <FixedRow path={['suspension']} />
        </div>
      </SheetContext>
    </SheetFrame>
  );
}
