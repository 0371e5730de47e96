import { type PointerEvent, type RefObject, useImperativeHandle, useRef } from 'react';
import { shownPoint } from '../../../design/side.ts';
import { applyPoint, invert } from '../../../math/rigid.ts';
import type { Vec3 } from '../../../math/vec.ts';
import { usePreventTouchScroll } from '../../kit/preventTouchScroll.ts';
import type { OpenCorner } from '../../state/engine.ts';
import { measuredPair } from '../../state/measuredPair.ts';
import { usePose } from '../../state/poseStore.ts';
import { sectionPlaneNow, useSection } from '../../state/sectionStore.ts';
import { useView } from '../../state/viewStore.ts';
import type { OverlayHandle } from '../../view3d/DimensionOverlay.tsx';
import type { Place } from '../../view3d/dimensionDrawing.ts';
import { useDrawnWhenMounted } from '../../view3d/overlayMounted.ts';
import { nameTags, type TagPlace } from './nameTags.ts';

/** A point within this distance of the plane counts as cut, mm: too small to see. */
const IN_CUT_MM = 0.3;
/** Distance of the handle from the point that the plane turns about, px. */
const HANDLE_OFF_PX = 130;
/** Least length of the plane's normal on the screen, as a fraction of its true length, at which the handle is shown. */
const LEAST_SLANT = 0.12;

/** Over the picture: the names of both parts of a gap in the plane, and the handle that moves the plane. */
export function SectionOverlay({
  corner,
  handle,
}: {
  corner: OpenCorner;
  handle: RefObject<OverlayHandle | null>;
}) {
  const box = useRef<HTMLDivElement>(null);
  const leaders = useRef<SVGPathElement>(null);
  const names = [useRef<HTMLDivElement>(null), useRef<HTMLDivElement>(null)];
  const slider = useRef<HTMLDivElement>(null);
  usePreventTouchScroll(slider);
  const sizes = useRef(new Map<string, { width: number; height: number }>());
  /** Screen displacement of the handle, px per mm along the section's normal. */
  const handleStep = useRef<Place>({ x: 0, y: 0 });
  const dragged = useRef({ fromMm: 0, x: 0, y: 0 });

  useDrawnWhenMounted();
  useImperativeHandle(handle, () => ({
    draw(project) {
      const plane = sectionPlaneNow(corner);
      const { side } = corner.design.corner;
      const placeOf = (point: Vec3) => project(shownPoint(side, point));
      drawNames(plane === undefined ? undefined : gapInCut(plane, placeOf));
      if (slider.current === null) return;
      slider.current.hidden = plane === undefined;
      if (plane === undefined) return;
      const at = (x: number, y: number, z: number) => placeOf(applyPoint(plane, [x, y, z]));
      const [origin, x, y, z] = [at(0, 0, 0), at(1, 0, 0), at(0, 1, 0), at(0, 0, 1)];
      const less = (p: Place): Place => ({ x: p.x - origin.x, y: p.y - origin.y });
      const sign = useSection.getState().flipped ? -1 : 1;
      const normal = less(z);
      handleStep.current = { x: sign * normal.x, y: sign * normal.y };
      const [alongX, alongY] = [less(x), less(y)];
      const inPlane = Math.hypot(alongY.x, alongY.y) >= Math.hypot(alongX.x, alongX.y) / 2 ? alongY : alongX;
      const length = Math.hypot(inPlane.x, inPlane.y);
      const slant = Math.hypot(normal.x, normal.y);
      if (length === 0 || slant < LEAST_SLANT * Math.max(length, slant)) {
        slider.current.hidden = true;
        return;
      }
      const down = inPlane.y >= 0 ? 1 : -1;
      const px = origin.x + (down * HANDLE_OFF_PX * inPlane.x) / length;
      const py = origin.y + (down * HANDLE_OFF_PX * inPlane.y) / length;
      const turn = Math.atan2(normal.y, normal.x);
      slider.current.style.transform = `translate(${px}px, ${py}px) translate(-50%, -50%) rotate(${turn}rad)`;
    },
  }));

  /** Both points of the selected pair's gap on the screen; undefined if they are not in the plane. */
  const gapInCut = (plane: Float64Array, placeOf: (point: Vec3) => Place) => {
    const { measured } = usePose.getState();
    const { pair } = useView.getState();
    const found = measured && pair !== undefined ? measuredPair(corner, measured, pair) : undefined;
    if (found === undefined || pair === undefined) return undefined;
    const planeFromVehicle = invert(plane);
    const inCut = [found.pointA, found.pointB].every(
      (point) => Math.abs(applyPoint(planeFromVehicle, point)[2]) < IN_CUT_MM,
    );
    return inCut ? { pair, a: placeOf(found.pointA), b: placeOf(found.pointB) } : undefined;
  };

  const drawNames = (gap: { pair: number; a: Place; b: Place } | undefined) => {
    const [one, other] = names.map(({ current }) => current);
    if (one === null || other === null || box.current === null) return;
    one.hidden = gap === undefined;
    other.hidden = gap === undefined;
    leaders.current?.setAttribute('d', '');
    if (gap === undefined) return;
    const { a, b } = corner.pairs[gap.pair];
    const sized = [one, other].map((element, i) => {
      const label = corner.solids[i === 0 ? a : b].label;
      if (element.textContent !== label) element.textContent = label;
      // Reading a size forces a layout: once per name.
      const known = sizes.current.get(label);
      if (known !== undefined) return known;
      const size = { width: element.offsetWidth, height: element.offsetHeight };
      sizes.current.set(label, size);
      return size;
    });
    const tags = nameTags(gap.a, gap.b, sized[0], sized[1]);
    const fits = ({ at, width, height }: TagPlace) =>
      at.x > width / 2 &&
      at.y > height / 2 &&
      at.x < (box.current?.clientWidth ?? 0) - width / 2 &&
      at.y < (box.current?.clientHeight ?? 0) - height / 2;
    const paths = [one, other].map((element, i) => {
      element.hidden = !fits(tags[i]);
      element.style.transform = `translate(${tags[i].at.x}px, ${tags[i].at.y}px) translate(-50%, -50%)`;
      return element.hidden ? '' : tags[i].leader;
    });
    leaders.current?.setAttribute('d', paths.join(''));
  };

  const onPointer = (event: PointerEvent<HTMLDivElement>) => {
    if (event.type === 'pointerdown') {
      event.currentTarget.setPointerCapture(event.pointerId);
      dragged.current = { fromMm: useSection.getState().offsetMm, x: event.clientX, y: event.clientY };
      return;
    }
    if (!event.currentTarget.hasPointerCapture(event.pointerId)) return;
    const { x, y } = handleStep.current;
    const along = (event.clientX - dragged.current.x) * x + (event.clientY - dragged.current.y) * y;
    useSection.setState({ offsetMm: dragged.current.fromMm + along / (x * x + y * y) });
  };

  return (
    <div ref={box} className="overlay" aria-hidden="true">
      <svg width="100%" height="100%" aria-hidden="true">
        <path ref={leaders} className="name-leaders" />
      </svg>
      <div ref={names[0]} className="name-tag" data-testid="cut-name" hidden />
      <div ref={names[1]} className="name-tag" data-testid="cut-name" hidden />
      <div
        ref={slider}
        className="section-handle"
        data-testid="section-handle"
        title="Drag to move the section"
        hidden
        onPointerDown={onPointer}
        onPointerMove={onPointer}
      >
        <svg viewBox="0 0 34 18" width="34" height="18" aria-hidden="true">
          <path d="M17 1v16M1 9l7-5v10zM33 9l-7-5v10zM8 9h18" />
        </svg>
      </div>
    </div>
  );
}
