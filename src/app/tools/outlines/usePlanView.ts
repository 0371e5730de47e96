import { type PointerEvent, type RefObject, useEffect, useRef, useState } from 'react';
import { screenAxes } from '../../../math/screenAxes.ts';
import { addScaled } from '../../../math/vec.ts';
import { preventTouchScroll } from '../../kit/preventTouchScroll.ts';
import type { Size } from '../../kit/useSize.ts';
import type { OpenCorner } from '../../state/engine.ts';
import { type CameraView, useView } from '../../state/viewStore.ts';
import { enlarged, listenForKeys } from '../../view3d/keyView.ts';
import { requestedView } from '../../view3d/requestedView.ts';

/** Zoom per pixel of mouse-wheel travel. */
const WHEEL = 0.0015;
/** A press that moves less than this selects, px. */
const PRESS_PX = 3;

/**
 * The view of the outlines. It follows the same requests and keys as the picture, pans by a drag and zooms by the mouse wheel.
 * `onPress` receives the pressed element if the pointer did not move.
 */
export function usePlanView(
  corner: OpenCorner,
  box: RefObject<HTMLElement | null>,
  size: Size,
  onPress: (pressed: Element) => void,
) {
  const viewRequest = useView((view) => view.viewRequest);
  const [view, setView] = useState<CameraView>();
  const drag = useRef<{ x: number; y: number; from: CameraView }>(undefined);
  const moved = useRef(0);
  const applyView = (next: CameraView) => {
    setView(next);
    useView.setState({ camera: next });
  };

  // biome-ignore lint/correctness/useExhaustiveDependencies: one look for each request; a later pose or size must not move the view
  useEffect(() => {
    const next = box.current === null ? undefined : requestedView(viewRequest, corner, box.current, size);
    if (next !== undefined) applyView(next);
  }, [viewRequest, size.width === 0]);

  const latest = useRef({ view, size });
  latest.current = { view, size };
  // biome-ignore lint/correctness/useExhaustiveDependencies: the listeners are added once and read view and size from `latest`
  useEffect(() => {
    const element = box.current;
    if (element === null) return;
    const onWheel = (event: WheelEvent) => {
      const { view: from, size: within } = latest.current;
      if (from === undefined) return;
      event.preventDefault();
      const bounds = element.getBoundingClientRect();
      const { pxPerMm } = enlarged(from, Math.exp(-WHEEL * event.deltaY));
      // Zoom about the pointer.
      const by = 1 / from.pxPerMm - 1 / pxPerMm;
      const x = event.clientX - bounds.left - within.width / 2;
      const y = event.clientY - bounds.top - within.height / 2;
      applyView({ ...shifted(from, x * by, y * by), pxPerMm });
    };
    // React adds wheel listeners as passive, which cannot prevent the default.
    element.addEventListener('wheel', onWheel, { passive: false });
    const stops = [preventTouchScroll(element), listenForKeys(element, () => latest.current.view, applyView)];
    return () => {
      element.removeEventListener('wheel', onWheel);
      for (const stop of stops) stop();
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
    applyView(shifted(from, -dx / from.pxPerMm, -dy / from.pxPerMm));
  };
  const pointer = {
    onPointerDown: onPointer,
    onPointerMove: onPointer,
    onPointerUp: onPointer,
    onPointerCancel: onPointer,
  };
  return { view, pointer };
}

/** The view with its target moved to the right and down on the screen, mm. */
function shifted(view: CameraView, rightMm: number, downMm: number): CameraView {
  const { right, up } = screenAxes(view.eye);
  return { ...view, target: addScaled(addScaled(view.target, right, rightMm), up, -downMm) };
}
