import { type KeyboardEvent, type PointerEvent, useRef } from 'react';
import { usePreventTouchScroll } from '../kit/preventTouchScroll.ts';
import { useView } from '../state/viewStore.ts';

const LEAST_PX = 170;
/** Of the window's width. */
const MOST_PART = 0.6;
const KEY_PX = 16;

const most = () => Math.max(LEAST_PX, Math.round(MOST_PART * innerWidth));
const set = (px: number) =>
  useView.setState({ leftPx: Math.round(Math.min(most(), Math.max(LEAST_PX, px))) });

/** Edge of the left column. A drag or arrow keys change its width, a double click resets it. */
export function ColumnHandle() {
  const leftPx = useView((view) => view.leftPx);
  const handle = useRef<HTMLHRElement>(null);
  usePreventTouchScroll(handle);
  const widthNow = () => handle.current?.parentElement?.offsetWidth ?? LEAST_PX;
  const onKey = (event: KeyboardEvent) => {
    const steps: Record<string, number | undefined> = {
      ArrowLeft: widthNow() - KEY_PX,
      ArrowRight: widthNow() + KEY_PX,
      Home: LEAST_PX,
      End: most(),
    };
    const px = steps[event.key];
    if (px === undefined) return;
    event.preventDefault();
    set(px);
  };
  const onPointer = (event: PointerEvent<HTMLElement>) => {
    if (event.type === 'pointerdown') event.currentTarget.setPointerCapture(event.pointerId);
    else if (event.currentTarget.hasPointerCapture(event.pointerId)) {
      const { left } = handle.current?.parentElement?.getBoundingClientRect() ?? { left: 0 };
      set(event.clientX - left);
    }
  };
  return (
    <hr
      ref={handle}
      className="column-handle"
      tabIndex={0}
      aria-orientation="vertical"
      aria-label="Width of the left column"
      aria-valuenow={leftPx ?? LEAST_PX}
      aria-valuemin={LEAST_PX}
      aria-valuemax={Math.max(most(), leftPx ?? 0)}
      aria-valuetext={leftPx === undefined ? 'default width' : `${leftPx} px`}
      title="Drag to change the width; double-click to reset it"
      onKeyDown={onKey}
      onPointerDown={onPointer}
      onPointerMove={onPointer}
      onDoubleClick={() => useView.setState({ leftPx: undefined })}
    />
  );
}
