import { type PointerEvent, type RefObject, useEffect, useRef, useState } from 'react';
import { addScaled } from '../../math/vec.ts';
import type { OpenCorner } from '../engine.ts';
import { ownTouches } from '../ownTouches.ts';
import { type CameraView, useView } from '../stores/viewStore.ts';
import type { Size } from '../useSize.ts';
import { screenAxes } from '../viewer/frame.ts';
import { wantedView } from '../viewer/wantedView.ts';

const LEAST_PX_PER_MM = 0.05;
const MOST_PX_PER_MM = 60;
/** Enlargement for each px that a wheel is turned by. */
const WHEEL = 0.0015;
/** A press that moves less than this is a choice, px. */
const PRESS_PX = 3;

/**
 * From where outlines are seen: as it is asked for by the same requests as the picture, moved by a drag, enlarged by a
 * wheel. `onPress` is given what was pressed by a press that moved nothing.
 */
export function usePlanView(
  corner: OpenCorner,
  box: RefObject<HTMLElement | null>,
  size: Size,
  onPress: (pressed: Element) => void,
) {
  const look = useView((view) => view.look);
  const [view, setView] = useState<CameraView>();
  const drag = useRef<{ x: number; y: number; from: CameraView }>(undefined);
  const moved = useRef(0);
  const take = (next: CameraView) => {
    setView(next);
    useView.setState({ camera: next });
  };

  // biome-ignore lint/correctness/useExhaustiveDependencies: one look for each request; a later pose or size must not move the view
  useEffect(() => {
    const wanted = box.current === null ? undefined : wantedView(look, corner, box.current, size);
    if (wanted !== undefined) take(wanted);
  }, [look, size.width === 0]);

  const latest = useRef({ view, size });
  latest.current = { view, size };
  // biome-ignore lint/correctness/useExhaustiveDependencies: the listener is added once and reads view and size from `latest`
  useEffect(() => {
    const element = box.current;
    if (element === null) return;
    const onWheel = (event: WheelEvent) => {
      const { view: from, size: within } = latest.current;
      if (from === undefined) return;
      event.preventDefault();
      const bounds = element.getBoundingClientRect();
      const wanted = from.pxPerMm * Math.exp(-WHEEL * event.deltaY);
      const pxPerMm = Math.min(MOST_PX_PER_MM, Math.max(LEAST_PX_PER_MM, wanted));
      // What is under the pointer stays there.
      const by = 1 / from.pxPerMm - 1 / pxPerMm;
      const x = event.clientX - bounds.left - within.width / 2;
      const y = event.clientY - bounds.top - within.height / 2;
      take({ ...shifted(from, x * by, y * by), pxPerMm });
    };
    // Not as a property of the element: those listen in a way that prevents nothing.
    element.addEventListener('wheel', onWheel, { passive: false });
    const free = ownTouches(element);
    return () => {
      element.removeEventListener('wheel', onWheel);
      free();
    };
  }, [box]);

  const onPointer = (event: PointerEvent<HTMLElement>) => {
    if (event.type === 'pointerdown') {
      moved.current = 0;
      if (view !== undefined) drag.current = { x: event.clientX, y: event.clientY, from: view };
      return;
    }
    if (event.type !== 'pointermove') {
      if (event.type === 'pointerup' && drag.current !== undefined && moved.current < PRESS_PX)
        onPress(event.target as Element);
      drag.current = undefined;
      return;
    }
    if (drag.current === undefined || event.buttons === 0) return;
    const { x, y, from } = drag.current;
    const [dx, dy] = [event.clientX - x, event.clientY - y];
    moved.current = Math.max(moved.current, Math.hypot(dx, dy));
    if (moved.current < PRESS_PX) return;
    if (!event.currentTarget.hasPointerCapture(event.pointerId))
      event.currentTarget.setPointerCapture(event.pointerId);
    take(shifted(from, -dx / from.pxPerMm, -dy / from.pxPerMm));
  };
  const pointer = {
    onPointerDown: onPointer,
    onPointerMove: onPointer,
    onPointerUp: onPointer,
    onPointerCancel: onPointer,
  };
  return { view, pointer };
}

/** The view with its middle moved to the right and down on the screen, mm. */
function shifted(view: CameraView, rightMm: number, downMm: number): CameraView {
  const { right, up } = screenAxes(view.eye);
  return { ...view, target: addScaled(addScaled(view.target, right, rightMm), up, -downMm) };
}
