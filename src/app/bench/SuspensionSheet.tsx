import { useMemo } from 'react';
import { fieldsAt } from '../../design/fields.ts';
import type { OpenCorner } from '../engine.ts';
import { sourceInHand, useDocument } from '../stores/documentStore.ts';
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
  const sheet = { corner, part: undefined, owner: 'Suspension' };
  return (
    <SheetFrame title="Points and suspension" onClose={onClose}>
      <SheetContext value={sheet}>
        <p className="bench-kind">
          At ride height, from the axle line, the centre line and the ground: X forward, Y to the left, Z up.
          A corner is written as a left one. {unitInWords(fileUnit)}
        </p>
        <FieldRows fields={fields} />
      </SheetContext>
    </SheetFrame>
  );
}
