import { type KeyboardEvent, type PointerEvent, type RefObject, useRef, useState } from 'react';
import type { LengthUnit } from '../../report/figures.ts';
import { keySteps } from '../bench/keySteps.ts';
import { stepped } from '../bench/stepText.ts';
import { withUnit } from '../panels/inputText.ts';
import { type AxesPx, alongAxis, inPlane, movedText, planeSeen } from './dragging.ts';
import { lengthMm, type ShownPoint } from './pointsOf.ts';
import { AXIS_NAMES, type Moved, usePointMove } from './usePointMove.ts';

interface HandlesProps {
  point: ShownPoint;
  /** How the file's axes run on the screen now. */
  axes: RefObject<AxesPx | undefined>;
  unit: LengthUnit | undefined;
}

/** A drag that is going on. */
interface Hold {
  x: number;
  y: number;
  /** As the point and the view were when it began. */
  texts: ShownPoint['texts'];
  axes: AxesPx;
  /** The name of the change that it makes. */
  merge: string;
}

const SEEN_PLANE = 'plane';

/** Handles of the point in hand: one along each axis and one for the plane seen best; arrow keys step an axis. */
export function PointHandles({ point, axes, unit }: HandlesProps) {
  const hold = useRef<Hold>(undefined);
  const [held, setHeld] = useState<number | typeof SEEN_PLANE>();
  const { hold: newHold, move, letGo } = usePointMove();

  const begin = (event: PointerEvent<HTMLElement>, which: number | typeof SEEN_PLANE) => {
    if (axes.current === undefined || event.button !== 0) return;
    event.currentTarget.setPointerCapture(event.pointerId);
    hold.current = {
      x: event.clientX,
      y: event.clientY,
      texts: point.texts,
      axes: axes.current,
      merge: newHold(),
    };
    setHeld(which);
  };
  const drag = (event: PointerEvent<HTMLElement>, which: number | typeof SEEN_PLANE) => {
    const start = hold.current;
    if (start === undefined) return;
    const px = { x: event.clientX - start.x, y: event.clientY - start.y };
    const [a, b] = which === SEEN_PLANE ? planeSeen(start.axes) : [which, which];
    const [alongA, alongB] =
      which === SEEN_PLANE ? inPlane(px, start.axes[a], start.axes[b]) : [alongAxis(px, start.axes[a]), 0];
    const wanted =
      which === SEEN_PLANE ? [[a, alongA] as const, [b, alongB] as const] : [[a, alongA] as const];
    const moved: Moved = wanted.flatMap(([axis, mm]) => {
      const text = movedText(start.texts[axis], mm, unit);
      return text === undefined ? [] : [[axis, text] as const];
    });
    if (moved.some(([axis, text]) => text !== point.texts[axis])) move(point, moved, start.merge, true);
  };
  const end = () => {
    hold.current = undefined;
    setHeld(undefined);
  };
  const onKey = (event: KeyboardEvent<HTMLElement>, axis: number) => {
    if (event.key === 'Escape' && hold.current !== undefined) {
      event.stopPropagation();
      letGo(hold.current.merge);
      end();
      return;
    }
    const steps = keySteps(event, true);
    if (steps === 0) return;
    event.preventDefault();
    const text = stepped('length', point.texts[axis], steps, unit);
    if (text !== undefined) move(point, [[axis, text]], `${point.key} ${axis}`, false);
  };
  const dragging = (which: number | typeof SEEN_PLANE) => ({
    onPointerDown: (event: PointerEvent<HTMLElement>) => begin(event, which),
    onPointerMove: (event: PointerEvent<HTMLElement>) => drag(event, which),
    onPointerUp: end,
    onPointerCancel: end,
    onLostPointerCapture: end,
  });
  const told =
    held === undefined
      ? [0, 1, 2]
      : held === SEEN_PLANE && axes.current
        ? [...planeSeen(axes.current)]
        : [held as number];

  return (
    <>
      {AXIS_NAMES.map((name, axis) => (
        <div
          key={name}
          role="spinbutton"
          tabIndex={0}
          className="point-handle"
          data-axis={name}
          data-held={held === axis}
          aria-label={`${point.name}, ${name}, in the view`}
          aria-valuenow={lengthMm(point.texts[axis].replace('−', '-'), unit) ?? 0}
          aria-valuetext={withUnit(point.texts[axis], unit)}
          title={`Drag along ${name}; arrow keys step, Shift makes the step large`}
          onKeyDown={(event) => onKey(event, axis)}
          {...dragging(axis)}
        >
          {name}
        </div>
      ))}
      <div
        className="point-label"
        data-testid="point-label"
        {...dragging(SEEN_PLANE)}
        title="Drag in the plane seen best"
      >
        <span className="point-plane" />
        <span className="point-figures">
          <b>{point.name}</b>
          {told.map((axis) => (
            <span key={axis}>
              {AXIS_NAMES[axis]} {withUnit(point.texts[axis], unit)}
            </span>
          ))}
        </span>
      </div>
    </>
  );
}
