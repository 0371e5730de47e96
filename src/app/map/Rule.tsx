import { type KeyboardEvent, type PointerEvent, useEffect, useMemo, useRef } from 'react';
import { afterPicture, setDragging } from '../kit/afterPicture.ts';
import { type Axis, fractionOf, valueAt } from '../kit/axis.ts';
import { keyTarget } from '../kit/keyTarget.ts';
import { usePreventTouchScroll } from '../kit/preventTouchScroll.ts';
import { KEY_STEPS_MM, type RuleUnit, type Tick, ticks } from '../kit/ticks.ts';
import { useSize } from '../kit/useSize.ts';
import { usePose } from '../state/poseStore.ts';

/** Space beyond each end of the graduations, so that cursor and end labels are not cut off. */
const RULE_END_PX = 22;
/** A pointer this near to zero snaps to zero. */
const SNAP_PX = 4;

interface RuleProps {
  label: string;
  orientation: 'horizontal' | 'vertical';
  axis: Axis;
  /** Unit of the graduations; in degrees, the values below are degrees too. */
  unit: RuleUnit;
  /** Labels of the ends of the axis: at `fromMm` and at `toMm`. */
  ends: readonly [string, string];
  /** Current value, mm. */
  value(): number;
  valueText(mm: number): string;
  onMove(mm: number): void;
}

const TICK_LENGTHS = [7, 12, 18] as const;

/** A slider drawn as a steel rule with graduations. */
export function Rule({ label, orientation, axis, unit, ends, value, valueText, onMove }: RuleProps) {
  const [ref, size] = useSize<HTMLDivElement>();
  usePreventTouchScroll(ref);
  const cursor = useRef<SVGGElement>(null);
  const vertical = orientation === 'vertical';
  const lengthPx = Math.max(0, (vertical ? size.height : size.width) - 2 * RULE_END_PX);
  const across = vertical ? size.width : size.height;
  const placePx = (mm: number) => {
    const along = RULE_END_PX + lengthPx * fractionOf(axis, mm);
    return vertical ? size.height - along : along;
  };
  const marks = useMemo(
    () => ticks(axis.fromMm, axis.toMm, lengthPx, unit),
    [axis.fromMm, axis.toMm, lengthPx, unit],
  );

  const latest = useRef({ value, valueText, placePx });
  latest.current = { value, valueText, placePx };
  const update = () => {
    const { value: now, valueText: words, placePx: place } = latest.current;
    const mm = now();
    const [x, y] = vertical ? [0, place(mm)] : [place(mm), 0];
    cursor.current?.setAttribute('transform', `translate(${x} ${y})`);
    ref.current?.setAttribute('aria-valuenow', String(Math.round(mm * 1000) / 1000));
    ref.current?.setAttribute('aria-valuetext', words(mm));
  };
  useEffect(update);
  useEffect(() => usePose.subscribe(update));

  const onPointer = (event: PointerEvent<HTMLDivElement>) => {
    if (event.type === 'pointerdown') {
      event.currentTarget.setPointerCapture(event.pointerId);
      setDragging(true);
    } else if (!event.currentTarget.hasPointerCapture(event.pointerId)) return;
    const box = event.currentTarget.getBoundingClientRect();
    const along = vertical ? box.bottom - event.clientY : event.clientX - box.left;
    const mm = valueAt(axis, (along - RULE_END_PX) / lengthPx);
    const pxPerMm = lengthPx / Math.abs(axis.toMm - axis.fromMm);
    afterPicture('move', () => onMove(Math.abs(mm) * pxPerMm < SNAP_PX ? 0 : mm));
  };

  const onKey = (event: KeyboardEvent) => {
    const target = keyTarget(event, axis, value(), KEY_STEPS_MM[unit]);
    if (target === undefined) return;
    event.preventDefault();
    onMove(target);
  };

  return (
    <div
      ref={ref}
      className={`rule rule-${orientation}`}
      role="slider"
      tabIndex={0}
      aria-label={label}
      aria-orientation={orientation}
      aria-valuemin={Math.min(axis.fromMm, axis.toMm)}
      aria-valuemax={Math.max(axis.fromMm, axis.toMm)}
      aria-valuenow={0}
      onPointerDown={onPointer}
      onPointerMove={onPointer}
      onLostPointerCapture={() => setDragging(false)}
      onKeyDown={onKey}
    >
      <svg width={size.width} height={size.height} aria-hidden="true">
        {marks.map((tick) => (
          <TickMark key={tick.mm} tick={tick} at={placePx(tick.mm)} vertical={vertical} />
        ))}
        {[axis.fromMm, axis.toMm].map((mm) => (
          <StopMark key={mm} at={placePx(mm)} vertical={vertical} />
        ))}
        <EndLabels ends={ends} unit={unit} size={size} vertical={vertical} />
        <g ref={cursor} className="rule-rider">
          <path d={vertical ? `M0 0H${across}` : `M0 0V${across}`} />
          <path className="rule-arrow" d={vertical ? 'M0 0l11 -7v14z' : 'M0 0l-7 11h14z'} />
        </g>
      </svg>
    </div>
  );
}

function TickMark({ tick, at, vertical }: { tick: Tick; at: number; vertical: boolean }) {
  const reach = TICK_LENGTHS[tick.level];
  const place = Math.round(at) + 0.5;
  return (
    <g className={`tick tick-${tick.level}`}>
      <path d={vertical ? `M0 ${place}h${reach}` : `M${place} 0v${reach}`} />
      {tick.label !== undefined && (
        <text
          x={vertical ? reach + 4 : place}
          y={vertical ? place : reach + 12}
          dominantBaseline={vertical ? 'central' : 'auto'}
          textAnchor={vertical ? 'start' : 'middle'}
        >
          {tick.label}
        </text>
      )}
    </g>
  );
}

/** Mark at the end of the corner's travel or lock. */
function StopMark({ at, vertical }: { at: number; vertical: boolean }) {
  const place = Math.round(at) + 0.5;
  const reach = TICK_LENGTHS[2];
  return <path className="rule-stop" d={vertical ? `M0 ${place}h${reach}` : `M${place} 0v${reach}`} />;
}

/** Labels of both ends, and the unit of the graduations. */
function EndLabels({
  ends,
  unit,
  size,
  vertical,
}: {
  ends: readonly [string, string];
  unit: RuleUnit;
  size: { width: number; height: number };
  vertical: boolean;
}) {
  const [from, to] = ends;
  if (vertical) {
    return (
      <g className="rule-end">
        <text x={size.width - 3} y={12} textAnchor="end">
          {to}, {unit}
        </text>
        <text x={size.width - 3} y={size.height - 5} textAnchor="end">
          {from}
        </text>
      </g>
    );
  }
  return (
    <g className="rule-end">
      <text x={3} y={11}>
        {unit}
      </text>
      <text x={RULE_END_PX + 5} y={size.height - 5}>
        {from}
      </text>
      <text x={size.width - RULE_END_PX - 5} y={size.height - 5} textAnchor="end">
        {to}
      </text>
    </g>
  );
}
