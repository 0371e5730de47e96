import { useMemo, useState } from 'react';
import { figuresIn } from '../../../report/figures.ts';
import { stoppedTravelInWords } from '../../../report/limits/stopText.ts';
import { travelAtDamperLength } from '../../../studies/limits/stopFigures.ts';
import { LengthError, parseLength } from '../../../units/parseLength.ts';
import { TypedRow } from '../../kit/TypedField.tsx';
import type { OpenCorner } from '../../state/engine.ts';
import { problemSentence } from '../../state/fieldText.ts';
import { useFileUnit } from '../../state/useFileUnit.ts';
import { useView } from '../../state/viewStore.ts';

const LABEL = 'Damper at stop';

/** The travel at which a bump stop is solid or a strap is tight, from the typed length between the damper's mounts. */
export function DamperLength({ corner }: { corner: OpenCorner }) {
  const figures = figuresIn(useView((view) => view.unit));
  const fileUnit = useFileUnit();
  const [text, setText] = useState('');
  const { corner: design } = corner.design;
  const read = useMemo(() => {
    if (text.trim() === '') return undefined;
    try {
      const { mm } = parseLength(text, fileUnit === undefined ? {} : { unit: fileUnit });
      return mm > 0 ? { mm, travel: travelAtDamperLength(design, mm) } : 'must be more than 0';
    } catch (error) {
      if (error instanceof LengthError) return error.message;
      throw error;
    }
  }, [text, fileUnit, design]);
  if (design.suspension.damper === undefined) return null;
  const problem = typeof read === 'string' ? problemSentence(LABEL, read) : undefined;
  return (
    <>
      <TypedRow
        label={LABEL}
        title="Distance between the damper's mounts at which the bump stop is solid, or the strap is tight."
        kind="length"
        text={text}
        unit={fileUnit}
        problem={problem}
        onType={setText}
      />
      {read !== undefined && typeof read !== 'string' && (
        <p className="bench-kind" role="status">
          {stoppedTravelInWords('Stop', read.mm, read.travel, figures)}
        </p>
      )}
    </>
  );
}
