import { useRef, useState } from 'react';
import { valueFromText } from '../../design/edit.ts';
import type { ValueField } from '../../design/fields.ts';
import { pathText } from '../../design/path.ts';
import { stepped } from './stepText.ts';
import type { FieldChange } from './useFieldChange.ts';
import { useFileUnit } from './useFileUnit.ts';

/** Steps of the value to either end of the slider; taken again, it goes on from where the value stands then. */
const REACH = 20;

interface ValueSliderProps {
  field: ValueField;
  spoken: string;
  /** What stands in the field, or what is assumed. */
  text: string;
  change: FieldChange;
}

let grips = 0;

/** Drags the value in hand through the steps that its arrow keys take. One drag is one change. */
export function ValueSlider({ field, spoken, text, change }: ValueSliderProps) {
  const fileUnit = useFileUnit();
  const [steps, setSteps] = useState(0);
  /** The text that a drag began with, and the name of that drag. */
  const grip = useRef<{ text: string; name: string }>(undefined);
  if (stepped(field.kind, text, 1, fileUnit) === undefined) return null;
  const letGo = () => {
    grip.current = undefined;
    setSteps(0);
  };
  return (
    <input
      type="range"
      className="bench-slider"
      // Arrow keys in the field itself do as much.
      tabIndex={-1}
      min={-REACH}
      max={REACH}
      value={steps}
      aria-label={`Slide ${spoken}`}
      aria-valuetext={text}
      onChange={(event) => {
        const wanted = event.target.valueAsNumber;
        grip.current ??= { text, name: `${pathText(field.path)} slid ${++grips}` };
        const next = stepped(field.kind, grip.current.text, wanted, fileUnit);
        if (next === undefined) return;
        setSteps(wanted);
        change(valueFromText(field, next), next, grip.current.name);
      }}
      onPointerUp={letGo}
      onPointerCancel={letGo}
      onBlur={letGo}
    />
  );
}
