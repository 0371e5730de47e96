import { type KeyboardEvent, type PointerEvent, useEffect, useLayoutEffect, useMemo, useRef } from 'react';
import type { TightSpot } from '../../findings/findings.ts';
import { figuresIn } from '../../report/figures.ts';
import { farInWords } from '../../report/treatment.ts';
import type { OpenCorner } from '../engine.ts';
import { useOwnTouches } from '../ownTouches.ts';
import { useSession } from '../session.ts';
import { steerScale } from '../steering.ts';
import { usePose } from '../stores/poseStore.ts';
import { useView } from '../stores/viewStore.ts';
import { useTokens } from '../tokens.ts';
import { useSize } from '../useSize.ts';
import { poseBrief, STATE_WORDS, signedMargin } from '../words.ts';
import { type Axis, fractionOf, nearestIndex, stepped, valueAt } from './axis.ts';
import { drawMap } from './drawMap.ts';
import type { StepPicture } from './stepPicture.ts';

interface MapPadProps {
  corner: OpenCorner;
  picture: StepPicture | undefined;
  /** The pairs that the picture is of. */
  pairs: readonly number[];
  worst: TightSpot | undefined;
}

/** Steps of the map that a key with shift crosses. */
const LARGE_STEP = 5;

/** The pad: travel up, steer across, the sweep map under the cross that shows and sets the pose. */
export function MapPad({ corner, picture, pairs, worst }: MapPadProps) {
  const session = useSession();
  const tokens = useTokens();
  const unit = useView((view) => view.unit);
  const [frame, size] = useSize<HTMLDivElement>();
  useOwnTouches(frame);
  const canvas = useRef<HTMLCanvasElement>(null);
  const cross = useRef<SVGGElement>(null);
  const { travel, rack, grid, scale } = useMemo(() => padOf(corner), [corner]);

  useLayoutEffect(() => {
    // Drawn by the processor: on a graphics card the map would wait behind all that the viewer has asked of it.
    const context = canvas.current?.getContext('2d', { willReadFrequently: true });
    if (!canvas.current || !context || picture === undefined || size.width === 0) return;
    const ratio = window.devicePixelRatio || 1;
    canvas.current.width = Math.round(size.width * ratio);
    canvas.current.height = Math.round(size.height * ratio);
    context.setTransform(ratio, 0, 0, ratio, 0, 0);
    drawMap(context, size.width, size.height, grid, picture, tokens);
  }, [picture, size, grid, tokens]);

  const place = (travelMm: number, steer: number) => ({
    x: fractionOf(rack, scale.rackMm(steer)) * size.width,
    y: (1 - fractionOf(travel, travelMm)) * size.height,
  });
  const follow = () => {
    const pose = usePose.getState();
    const { x, y } = place(pose.travelMm, pose.steer);
    const [hair, beam, dot] = cross.current?.children ?? [];
    hair?.setAttribute('d', `M${x} 0V${size.height}`);
    beam?.setAttribute('d', `M0 ${y}H${size.width}`);
    dot?.setAttribute('transform', `translate(${x} ${y})`);
    frame.current?.setAttribute('aria-valuenow', pose.travelMm.toFixed(1));
    frame.current?.setAttribute('aria-valuetext', spoken(pose.travelMm, pose.steer));
  };
  const spoken = (travelMm: number, steer: number): string => {
    const figures = figuresIn(unit);
    const where = poseBrief(corner.design.corner, travelMm, steer, figures);
    if (picture === undefined) return `${where}: not swept yet`;
    const row = nearestIndex(grid.travelAt, fractionOf(travel, travelMm));
    const column = nearestIndex(grid.steerAt, fractionOf(rack, scale.rackMm(steer)));
    const step = row * grid.steerAt.length + column;
    const state = picture.states[step];
    if (state === 'pending') return `${where}: not swept yet`;
    if (state === 'unreachable') return `${where}: out of reach`;
    const margin = picture.marginMm[step];
    const openMm = picture.isOpen[step] === 1 ? Number.POSITIVE_INFINITY : 0;
    const left = Number.isFinite(margin) ? `, margin ${signedMargin(margin, openMm, figures)} ${unit}` : '';
    const far = () =>
      farInWords(
        pairs.map((pair) => corner.pairs[pair]),
        corner.settings.limitMm,
        figures,
      );
    return `${where}: ${state === 'far' ? far() : STATE_WORDS[state]}${left}`;
  };
  useEffect(follow);
  useEffect(() => usePose.subscribe(follow));

  const onPointer = (event: PointerEvent<HTMLDivElement>) => {
    if (event.type === 'pointerdown') event.currentTarget.setPointerCapture(event.pointerId);
    else if (!event.currentTarget.hasPointerCapture(event.pointerId)) return;
    usePose.setState({ playing: false });
    const box = event.currentTarget.getBoundingClientRect();
    const across = valueAt(rack, (event.clientX - box.left) / box.width);
    const up = valueAt(travel, (box.bottom - event.clientY) / box.height);
    session.moveTo(up, scale.steer(across));
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
    const travelMm = stepped(corner.travelMm, pose.travelMm, move[0]);
    // Left lock, the larger rack travel, stands at the left: the order of the steps may run the other way.
    const sense = grid.steerAt[grid.steerAt.length - 1] >= grid.steerAt[0] ? 1 : -1;
    session.moveTo(travelMm, stepped(corner.steer, pose.steer, sense * move[1]));
  };

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
        onKeyDown={onKey}
      >
        <canvas ref={canvas} />
        <svg width={size.width} height={size.height} aria-hidden="true">
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
  const rack: Axis = { fromMm: scale.leftMm, toMm: scale.rightMm };
  const grid = {
    travelAt: [...corner.travelMm].map((mm) => fractionOf(travel, mm)),
    steerAt: [...corner.steer].map((steer) => fractionOf(rack, scale.rackMm(steer))),
  };
  return { scale, travel, rack, grid };
}
