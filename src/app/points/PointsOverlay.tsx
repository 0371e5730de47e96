import { type RefObject, useEffect, useImperativeHandle, useMemo, useRef } from 'react';
import { shownPoint } from '../../design/side.ts';
import { applyPoint } from '../../math/rigid.ts';
import { add, type Vec3 } from '../../math/vec.ts';
import { useFileUnit } from '../bench/useFileUnit.ts';
import type { OpenCorner } from '../engine.ts';
import { useOwnTouches } from '../ownTouches.ts';
import { sourceInHand, useDocument } from '../stores/documentStore.ts';
import { usePose } from '../stores/poseStore.ts';
import { usePoseSlowly } from '../stores/usePoseSlowly.ts';
import { useView } from '../stores/viewStore.ts';
import type { OverlayHandle } from '../viewer/DimensionOverlay.tsx';
import type { Place } from '../viewer/dimensionDrawing.ts';
import { type AxesPx, isSeen } from './dragging.ts';
import { PointHandles } from './PointHandles.tsx';
import { pointsOf, type ShownPoint } from './pointsOf.ts';
import { AXIS_NAMES, usePointMove } from './usePointMove.ts';

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

/** Over the picture while the points sheet is open: every point, and handles on the one in hand. */
export function PointsOverlay(props: OverlayProps) {
  const shown = useView((view) => view.pointsShown);
  return shown ? <Points {...props} /> : null;
}

function Points({ corner, handle }: OverlayProps) {
  const source = useDocument(sourceInHand);
  const unit = useFileUnit();
  const inHand = useView((view) => view.point);
  const { travelMm, steer } = usePoseSlowly();
  const atRideHeight = travelMm === 0 && steer === 0;
  const { suspension, side } = corner.design.corner;
  const points = useMemo(() => pointsOf(source, suspension, unit), [source, suspension, unit]);
  const chosen = points.find(({ key }) => key === inHand);
  const { toRideHeight } = usePointMove();
  const root = useRef<HTMLDivElement>(null);
  useOwnTouches(root);
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
    const seen = UNIT.map((axis) => {
      const end = project(shownPoint(side, add(one.place, axis)));
      const start = project(shownPoint(side, one.place));
      return { x: end.x - start.x, y: end.y - start.y };
    }) as unknown as AxesPx;
    axes.current = seen;
    for (const [axis, name] of AXIS_NAMES.entries()) {
      const handleOf = root.current?.querySelector<HTMLElement>(`[data-axis="${name}"]`);
      const line = root.current?.querySelector(`[data-line="${name}"]`);
      const long = Math.hypot(seen[axis].x, seen[axis].y);
      const visible = isSeen(seen, axis);
      const end = {
        x: at.x + (seen[axis].x / (long || 1)) * HANDLE_OFF_PX,
        y: at.y + (seen[axis].y / (long || 1)) * HANDLE_OFF_PX,
      };
      handleOf?.toggleAttribute('data-unseen', !visible);
      if (handleOf) handleOf.style.transform = `translate(${end.x}px, ${end.y}px)`;
      line?.setAttribute('d', visible ? `M${at.x} ${at.y}L${end.x} ${end.y}` : '');
    }
    const label = root.current?.querySelector<HTMLElement>('.point-label');
    if (label) label.style.transform = `translate(${at.x}px, ${at.y}px)`;
  };

  useImperativeHandle(handle, () => ({
    draw(project) {
      projected.current = project;
      draw();
    },
  }));
  // What is typed or dragged moves before the picture does.
  useEffect(draw);
  // The first frame after the sheet was opened, or a point came into hand.
  // biome-ignore lint/correctness/useExhaustiveDependencies: asks for a frame once for each
  useEffect(() => useView.setState({}), [inHand, atRideHeight]);

  return (
    <div ref={root} className="overlay points">
      <svg width="100%" height="100%" aria-hidden="true">
        {chosen !== undefined &&
          atRideHeight &&
          AXIS_NAMES.map((name) => <path key={name} data-line={name} className="point-axis" />)}
      </svg>
      {points.map(({ key, name }) => (
        // By keys a point is chosen in its fields on the sheet.
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
            Stand at ride height to move {chosen.name.toLowerCase()}
          </button>
        </p>
      )}
    </div>
  );
}
