import { useRef, useState } from 'react';
import { valueFromText } from '../../../design/edit.ts';
import type { ValueField } from '../../../design/fields.ts';
import { pathText } from '../../../design/path.ts';
import { stepText } from '../../kit/stepText.ts';
import { useFileUnit } from '../../state/useFileUnit.ts';
import type { FieldChange } from './useFieldChange.ts';

/** Steps to either end of the slider. A new drag starts at the value reached by the last. */
const REACH = 20;

interface ValueSliderProps {
  field: ValueField;
  spoken: string;
  /** The text of the field, or its assumed value. */
  text: string;
  change: FieldChange;
}

let drags = 0;

/** Slider over the same steps as the arrow keys of the field. One drag is one change. */
export function ValueSlider({ field, spoken, text, change }: ValueSliderProps) {
  const fileUnit = useFileUnit();
  const [steps, setSteps] = useState(0);
  /** The text at the start of a drag, and its merge key. */
  const drag = useRef<{ text: string; name: string }>(undefined);
  if (stepText(field.kind, text, 1, fileUnit) === undefined) return null;
  const endDrag = () => {
    drag.current = undefined;
    setSteps(0);
  };
  return (
    <input
      type="range"
      className="bench-slider"
      // The field's arrow keys do the same.
      tabIndex={-1}
      min={-REACH}
      max={REACH}
      value={steps}
      aria-label={`Slide ${spoken}`}
      aria-valuetext={text}
      onChange={(event) => {
        const target = event.target.valueAsNumber;
        drag.current ??= { text, name: `${pathText(field.path)} slid ${++drags}` };
        const next = stepText(field.kind, drag.current.text, target, fileUnit);
        if (next === undefined) return;
        setSteps(target);
        change(valueFromText(field, next), next, drag.current.name);
      }}
      onPointerUp={endDrag}
      onPointerCancel={endDrag}
      onBlur={endDrag}
    />
  );
}
