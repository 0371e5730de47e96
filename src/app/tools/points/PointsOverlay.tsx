import { type RefObject, useEffect, useImperativeHandle, useMemo, useRef } from 'react';
import { shownPoint } from '../../../design/side.ts';
import { applyPoint } from '../../../math/rigid.ts';
import { add, type Vec3 } from '../../../math/vec.ts';
import { usePreventTouchScroll } from '../../kit/preventTouchScroll.ts';
import { currentSource, useDocument } from '../../state/documentStore.ts';
import type { OpenCorner } from '../../state/engine.ts';
import { AXIS_NAMES } from '../../state/fieldText.ts';
import { usePose } from '../../state/poseStore.ts';
import { useFileUnit } from '../../state/useFileUnit.ts';
import { useThrottledPose } from '../../state/useThrottledPose.ts';
import { useView } from '../../state/viewStore.ts';
import type { OverlayHandle } from '../../view3d/DimensionOverlay.tsx';
import type { Place } from '../../view3d/dimensionDrawing.ts';
import { useDrawnWhenMounted } from '../../view3d/overlayMounted.ts';
import { type AxesPx, isDraggable } from './dragging.ts';
import { PointHandles } from './PointHandles.tsx';
import { pointsOf, type ShownPoint } from './pointsOf.ts';
import { usePointMove } from './usePointMove.ts';

const HANDLE_OFF_PX = 52;
const UNIT: readonly Vec3[] = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
];

interface OverlayProps {
  corner: OpenCorner;
  handle: RefObject<OverlayHandle | null>;
}

/** Over the picture while the points sheet is open: every point, and handles on the selected one. */
export function PointsOverlay({ corner, handle }: OverlayProps) {
  const source = useDocument(currentSource);
  const unit = useFileUnit();
  const inHand = useView((view) => view.point);
  const { travelMm, steer } = useThrottledPose();
  const atRideHeight = travelMm === 0 && steer === 0;
  const { suspension, side } = corner.design.corner;
  const points = useMemo(() => pointsOf(source, suspension, unit), [source, suspension, unit]);
  const chosen = points.find(({ key }) => key === inHand);
  const { toRideHeight } = usePointMove();
  const root = useRef<HTMLDivElement>(null);
  usePreventTouchScroll(root);
  const projected = useRef<(point: Vec3) => Place>(undefined);
  const axes = useRef<AxesPx>(undefined);

  const place = (one: ShownPoint): Vec3 => {
    const { drawn } = usePose.getState();
    return shownPoint(side, drawn === undefined ? one.place : applyPoint(drawn[one.carrier], one.place));
  };
  const draw = () => {
    const project = projected.current;
    if (project === undefined) return;
    for (const one of points) {
      const at = project(place(one));
      const dot = root.current?.querySelector<HTMLElement>(`[data-point="${one.key}"]`);
      if (dot) dot.style.transform = `translate(${at.x}px, ${at.y}px)`;
      if (one.key === inHand) drawHandles(one, at, project);
    }
  };
  const drawHandles = (one: ShownPoint, at: Place, project: (point: Vec3) => Place) => {
    const axesPx = UNIT.map((axis) => {
      const end = project(shownPoint(side, add(one.place, axis)));
      const start = project(shownPoint(side, one.place));
      return { x: end.x - start.x, y: end.y - start.y };
    }) as unknown as AxesPx;
    axes.current = axesPx;
    for (const [axis, name] of AXIS_NAMES.entries()) {
      const handleOf = root.current?.querySelector<HTMLElement>(`[data-axis="${name}"]`);
      const line = root.current?.querySelector(`[data-line="${name}"]`);
      const long = Math.hypot(axesPx[axis].x, axesPx[axis].y);
      const visible = isDraggable(axesPx, axis);
      const end = {
        x: at.x + (axesPx[axis].x / (long || 1)) * HANDLE_OFF_PX,
        y: at.y + (axesPx[axis].y / (long || 1)) * HANDLE_OFF_PX,
      };
      handleOf?.toggleAttribute('data-unseen', !visible);
      if (handleOf) handleOf.style.transform = `translate(${end.x}px, ${end.y}px)`;
      line?.setAttribute('d', visible ? `M${at.x} ${at.y}L${end.x} ${end.y}` : '');
    }
    const label = root.current?.querySelector<HTMLElement>('.point-label');
    if (label) label.style.transform = `translate(${at.x}px, ${at.y}px)`;
  };

  useDrawnWhenMounted();
  useImperativeHandle(handle, () => ({
    draw(project) {
      projected.current = project;
      draw();
    },
  }));
  // A typed or dragged point moves at once; the picture follows when the corner is built.
  useEffect(draw);
  // Requests the first frame after the sheet opens or a point is selected.
  // biome-ignore lint/correctness/useExhaustiveDependencies: one request for each selected point
  useEffect(() => useView.setState({}), [inHand, atRideHeight]);

  return (
    <div ref={root} className="overlay points">
      <svg width="100%" height="100%" aria-hidden="true">
        {chosen !== undefined &&
          atRideHeight &&
          AXIS_NAMES.map((name) => <path key={name} data-line={name} className="point-axis" />)}
      </svg>
      {points.map(({ key, name }) => (
        // By keyboard, a point is selected in its fields on the sheet.
        <span
          key={key}
          aria-hidden="true"
          className="point-dot"
          data-point={key}
          data-chosen={key === inHand}
          title={name}
          onPointerDown={() => {
            toRideHeight();
            useView.setState({ point: key });
          }}
        />
      ))}
      {chosen !== undefined && atRideHeight && (
        <PointHandles key={chosen.key} point={chosen} axes={axes} unit={unit} />
      )}
      {chosen !== undefined && !atRideHeight && (
        <p className="points-note">
          <button type="button" onClick={toRideHeight}>
            Go to ride height to move {chosen.name.toLowerCase()}
          </button>
        </p>
      )}
    </div>
  );
}
