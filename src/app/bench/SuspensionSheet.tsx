import { useEffect, useMemo, useRef } from 'react';
import { fieldsAt } from '../../design/fields.ts';
import type { Path } from '../../design/path.ts';
import type { OpenCorner } from '../engine.ts';
import { pointKeyAt } from '../points/pointsOf.ts';
import { sourceInHand, useDocument } from '../stores/documentStore.ts';
import { useView } from '../stores/viewStore.ts';
import { FieldRows } from './FieldRows.tsx';
import { unitInWords } from './fieldText.ts';
import { SheetFrame } from './SheetFrame.tsx';
import { SheetContext } from './sheetContext.ts';
import { useFileUnit } from './useFileUnit.ts';

/** The nine points, the damper's mounts, alignment, travel and steering. */
export function SuspensionSheet({ corner, onClose }: { corner: OpenCorner; onClose(): void }) {
  const source = useDocument(sourceInHand);
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
          A corner is written as a left one. {unitInWords(fileUnit)}
        </p>
        <p className="bench-kind">
          The points stand in the view as well: choose one there or here, and drag it by its X, Y and Z, or by
          its middle in the plane that is seen best.
        </p>
        <div ref={body}>
          <FieldRows fields={fields} />
        </div>
      </SheetContext>
    </SheetFrame>
  );
}
