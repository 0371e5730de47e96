import { type KeyboardEvent, type PointerEvent, type RefObject, useRef, useState } from 'react';
import type { LengthUnit } from '../../../report/figures.ts';
import { withUnit } from '../../kit/inputText.ts';
import { keySteps } from '../../kit/keySteps.ts';
import { stepText } from '../../kit/stepText.ts';
import { AXIS_NAMES } from '../../state/fieldText.ts';
import { type AxesPx, alongAxis, facingPlane, inPlane, movedText } from './dragging.ts';
import { lengthMm, type ShownPoint } from './pointsOf.ts';
import { type Moved, usePointMove } from './usePointMove.ts';

interface HandlesProps {
  point: ShownPoint;
  /** The file's axes on the screen at the current view. */
  axes: RefObject<AxesPx | undefined>;
  unit: LengthUnit | undefined;
}

/** A drag in progress. */
interface Drag {
  x: number;
  y: number;
  /** Point and view at the start of the drag. */
  texts: ShownPoint['texts'];
  axes: AxesPx;
  /** Merge key of its change. */
  merge: string;
}

const FACING_PLANE = 'plane';

/** Handles of the selected point: one along each axis and one for the plane that faces the eye most. Arrow keys step an axis. */
export function PointHandles({ point, axes, unit }: HandlesProps) {
  const activeDrag = useRef<Drag>(undefined);
  const [held, setHeld] = useState<number | typeof FACING_PLANE>();
  const { newDrag, move, revert } = usePointMove();

  const begin = (event: PointerEvent<HTMLElement>, which: number | typeof FACING_PLANE) => {
    if (axes.current === undefined || event.button !== 0) return;
    event.currentTarget.setPointerCapture(event.pointerId);
    activeDrag.current = {
      x: event.clientX,
      y: event.clientY,
      texts: point.texts,
      axes: axes.current,
      merge: newDrag(),
    };
    setHeld(which);
  };
  const drag = (event: PointerEvent<HTMLElement>, which: number | typeof FACING_PLANE) => {
    const start = activeDrag.current;
    if (start === undefined) return;
    const px = { x: event.clientX - start.x, y: event.clientY - start.y };
    const [a, b] = which === FACING_PLANE ? facingPlane(start.axes) : [which, which];
    const [alongA, alongB] =
      which === FACING_PLANE ? inPlane(px, start.axes[a], start.axes[b]) : [alongAxis(px, start.axes[a]), 0];
    const shifts =
      which === FACING_PLANE ? [[a, alongA] as const, [b, alongB] as const] : [[a, alongA] as const];
    const moved: Moved = shifts.flatMap(([axis, mm]) => {
      const text = movedText(start.texts[axis], mm, unit);
      return text === undefined ? [] : [[axis, text] as const];
    });
    if (moved.some(([axis, text]) => text !== point.texts[axis])) move(point, moved, start.merge, true);
  };
  const end = () => {
    activeDrag.current = undefined;
    setHeld(undefined);
  };
  const onKey = (event: KeyboardEvent<HTMLElement>, axis: number) => {
    if (event.key === 'Escape' && activeDrag.current !== undefined) {
      event.stopPropagation();
      revert(activeDrag.current.merge);
      end();
      return;
    }
    const steps = keySteps(event, true);
    if (steps === 0) return;
    event.preventDefault();
    const text = stepText('length', point.texts[axis], steps, unit);
    if (text !== undefined) move(point, [[axis, text]], `${point.key} ${axis}`, false);
  };
  const dragging = (which: number | typeof FACING_PLANE) => ({
    onPointerDown: (event: PointerEvent<HTMLElement>) => begin(event, which),
    onPointerMove: (event: PointerEvent<HTMLElement>) => drag(event, which),
    onPointerUp: end,
    onPointerCancel: end,
    onLostPointerCapture: end,
  });
  const shownAxes =
    held === undefined
      ? [0, 1, 2]
      : held === FACING_PLANE && axes.current
        ? [...facingPlane(axes.current)]
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
        {...dragging(FACING_PLANE)}
        title="Drag in the plane most square to the view"
      >
        <span className="point-plane" />
        <span className="point-figures">
          <b>{point.name}</b>
          {shownAxes.map((axis) => (
            <span key={axis}>
              {AXIS_NAMES[axis]} {withUnit(point.texts[axis], unit)}
            </span>
          ))}
        </span>
      </div>
    </>
  );
}
