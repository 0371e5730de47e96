import { type KeyboardEvent, type PointerEvent, useEffect, useLayoutEffect, useMemo, useRef } from 'react';
import type { TightSpot } from '../../findings/findings.ts';
import { figuresIn } from '../../report/figures.ts';
import { farInWords } from '../../report/treatment.ts';
import { afterPicture, setDragging } from '../kit/afterPicture.ts';
import { type Axis, fractionOf, nearestIndex, stepBy, valueAt } from '../kit/axis.ts';
import { usePreventTouchScroll } from '../kit/preventTouchScroll.ts';
import { useTokens } from '../kit/tokens.ts';
import { useSize } from '../kit/useSize.ts';
import { poseBrief, STATE_WORDS, signedMargin } from '../kit/words.ts';
import type { OpenCorner } from '../state/engine.ts';
import { usePose } from '../state/poseStore.ts';
import { useSession } from '../state/session.ts';
import { steerScale } from '../state/steering.ts';
import { useUsableOf } from '../state/usableStore.ts';
import { useView } from '../state/viewStore.ts';
import { drawMap } from './drawMap.ts';
import type { StepPicture } from './stepPicture.ts';

interface MapPadProps {
  corner: OpenCorner;
  picture: StepPicture | undefined;
  /** Indices of the pairs that the picture shows. */
  pairs: readonly number[];
  worst: TightSpot | undefined;
}

/** Steps for a key press with Shift, and for a page key. */
const LARGE_STEP = 5;

/** The sweep map (travel up, steer across) with a cross that shows and sets the pose. */
export function MapPad({ corner, picture, pairs, worst }: MapPadProps) {
  const session = useSession();
  const tokens = useTokens();
  const unit = useView((view) => view.unit);
  const [frame, size] = useSize<HTMLDivElement>();
  usePreventTouchScroll(frame);
  const canvas = useRef<HTMLCanvasElement>(null);
  const cross = useRef<SVGGElement>(null);
  const { travel, across: steering, grid, scale } = useMemo(() => padOf(corner), [corner]);

  useLayoutEffect(() => {
    // `willReadFrequently` selects software drawing; on the graphics card the map would wait for the 3D view.
    const context = canvas.current?.getContext('2d', { willReadFrequently: true });
    if (!canvas.current || !context || picture === undefined || size.width === 0) return;
    const ratio = window.devicePixelRatio || 1;
    canvas.current.width = Math.round(size.width * ratio);
    canvas.current.height = Math.round(size.height * ratio);
    context.setTransform(ratio, 0, 0, ratio, 0, 0);
    drawMap(context, size.width, size.height, grid, picture, tokens);
  }, [picture, size, grid, tokens]);

  const place = (travelMm: number, steer: number) => ({
    x: fractionOf(steering, scale.input(steer)) * size.width,
    y: (1 - fractionOf(travel, travelMm)) * size.height,
  });
  const update = () => {
    const pose = usePose.getState();
    const { x, y } = place(pose.travelMm, pose.steer);
    const [vertical, horizontal, dot] = cross.current?.children ?? [];
    vertical?.setAttribute('d', `M${x} 0V${size.height}`);
    horizontal?.setAttribute('d', `M0 ${y}H${size.width}`);
    dot?.setAttribute('transform', `translate(${x} ${y})`);
    frame.current?.setAttribute('aria-valuenow', pose.travelMm.toFixed(1));
    frame.current?.setAttribute('aria-valuetext', spoken(pose.travelMm, pose.steer));
  };
  const spoken = (travelMm: number, steer: number): string => {
    const figures = figuresIn(unit);
    const where = poseBrief(corner.design.corner, travelMm, steer, figures);
    if (picture === undefined) return `${where}: not swept yet`;
    const row = nearestIndex(grid.travelAt, fractionOf(travel, travelMm));
    const column = nearestIndex(grid.steerAt, fractionOf(steering, scale.input(steer)));
    const step = row * grid.steerAt.length + column;
    const state = picture.states[step];
    if (state === 'pending') return `${where}: not swept yet`;
    if (state === 'unreachable') return `${where}: out of reach`;
    const margin = picture.marginMm[step];
    const errorMm = picture.isUnbounded[step] === 1 ? Number.POSITIVE_INFINITY : 0;
    const left = Number.isFinite(margin) ? `, margin ${signedMargin(margin, errorMm, figures)} ${unit}` : '';
    const far = () =>
      farInWords(
        pairs.map((pair) => corner.pairs[pair]),
        corner.settings.limitMm,
        figures,
      );
    return `${where}: ${state === 'far' ? far() : STATE_WORDS[state]}${left}`;
  };
  useEffect(update);
  useEffect(() => usePose.subscribe(update));

  const onPointer = (event: PointerEvent<HTMLDivElement>) => {
    if (event.type === 'pointerdown') {
      event.currentTarget.setPointerCapture(event.pointerId);
      setDragging(true);
    } else if (!event.currentTarget.hasPointerCapture(event.pointerId)) return;
    usePose.setState({ playing: false });
    const box = event.currentTarget.getBoundingClientRect();
    const across = valueAt(steering, (event.clientX - box.left) / box.width);
    const up = valueAt(travel, (box.bottom - event.clientY) / box.height);
    afterPicture('move', () => session.moveTo(up, scale.steer(across)));
  };

  const onKey = (event: KeyboardEvent) => {
    const by = event.shiftKey ? LARGE_STEP : 1;
    const moves: Record<string, readonly [number, number]> = {
      ArrowRight: [0, by],
      ArrowLeft: [0, -by],
      ArrowUp: [by, 0],
      ArrowDown: [-by, 0],
      PageUp: [LARGE_STEP, 0],
      PageDown: [-LARGE_STEP, 0],
      Home: [0, Number.NEGATIVE_INFINITY],
      End: [0, Number.POSITIVE_INFINITY],
    };
    const move = moves[event.key];
    if (move === undefined && event.key !== '0') return;
    event.preventDefault();
    usePose.setState({ playing: false });
    if (move === undefined) return session.moveTo(0, 0);
    const pose = usePose.getState();
    const travelMm = stepBy(corner.travelMm, pose.travelMm, move[0]);
    // Left lock is on the left; the steer steps may run in the opposite order.
    const direction = grid.steerAt[grid.steerAt.length - 1] >= grid.steerAt[0] ? 1 : -1;
    session.moveTo(travelMm, stepBy(corner.steer, pose.steer, direction * move[1]));
  };

  const usable = useUsableOf(corner.design.hash);
  const outline = (usable?.edges ?? [])
    .map((points) => points.map(({ travelMm, steer }) => place(travelMm, steer)))
    .map((points) => `M${points.map(({ x, y }) => `${x.toFixed(1)} ${y.toFixed(1)}`).join('L')}Z`)
    .join('');
  const spot = worst && place(worst.travelMm, worst.steer);
  return (
    <div className="map">
      <span className="map-corner map-corner-top">bump</span>
      <span className="map-corner map-corner-bottom">droop</span>
      <div
        ref={frame}
        className="map-pad"
        role="slider"
        tabIndex={0}
        aria-label="Travel and steer"
        aria-roledescription="two-way slider"
        aria-valuemin={travel.fromMm}
        aria-valuemax={travel.toMm}
        aria-valuenow={0}
        onPointerDown={onPointer}
        onPointerMove={onPointer}
        onLostPointerCapture={() => setDragging(false)}
        onKeyDown={onKey}
      >
        <canvas ref={canvas} />
        <svg width={size.width} height={size.height} aria-hidden="true">
          {outline !== '' && (
            <>
              <path className="map-usable-ground" d={outline} />
              <path className="map-usable" d={outline} />
            </>
          )}
          {usable?.stretches.map(({ number, at }) => {
            const { x, y } = place(at.travelMm, at.steer);
            return (
              <g key={number} className="map-number" transform={`translate(${x} ${y})`}>
                <circle r={8} />
                <text dy="0.35em">{number}</text>
              </g>
            );
          })}
          {spot && <circle className="map-spot" cx={spot.x} cy={spot.y} r={8} />}
          <g ref={cross} className="map-cross">
            <path />
            <path />
            <circle r={4.5} />
          </g>
        </svg>
      </div>
      <span className="map-end map-end-left">left lock</span>
      <span className="map-end map-end-right">right lock</span>
    </div>
  );
}

function padOf(corner: OpenCorner) {
  const { suspension } = corner.design.corner;
  const scale = steerScale(corner.design.corner);
  const travel: Axis = { fromMm: -suspension.travel.droop, toMm: suspension.travel.bump };
  const across: Axis = { fromMm: scale.left, toMm: scale.right };
  const grid = {
    travelAt: [...corner.travelMm].map((mm) => fractionOf(travel, mm)),
    steerAt: [...corner.steer].map((steer) => fractionOf(across, scale.input(steer))),
  };
  return { scale, travel, across, grid };
}
