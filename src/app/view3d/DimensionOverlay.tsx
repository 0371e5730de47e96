import { type RefObject, useEffect, useImperativeHandle, useRef } from 'react';
import { shownPoint } from '../../design/side.ts';
import type { Vec3 } from '../../math/vec.ts';
import { type Figures, figuresIn } from '../../report/figures.ts';
import { StateMark } from '../kit/StateMark.tsx';
import { withFraction } from '../kit/words.ts';
import type { OpenCorner } from '../state/engine.ts';
import { measuredPair, touchingPairs } from '../state/measuredPair.ts';
import { measuredNow, usePose } from '../state/poseStore.ts';
import { useView } from '../state/viewStore.ts';
import { type DimensionDrawing, dimensionDrawing, type Place } from './dimensionDrawing.ts';

export interface OverlayHandle {
  /** Redraws; `project` returns the place in px of a point as shown. */
  draw(project: (point: Vec3) => Place): void;
}

/** States with a mark. */
const MARKED = ['touches', 'tight', 'unknown'] as const;
const CROSS = 'M-6 -6L6 6M-6 6L6 -6';

/** Overlay on the picture: the dimension of the selected pair, and a cross at each touching pair. */
export function DimensionOverlay({
  corner,
  handle,
}: {
  corner: OpenCorner;
  handle: RefObject<OverlayHandle | null>;
}) {
  const lines = useRef<SVGPathElement>(null);
  const halo = useRef<SVGPathElement>(null);
  const crosses = useRef<SVGGElement>(null);
  const label = useRef<HTMLDivElement>(null);
  const words = useRef<HTMLSpanElement>(null);

  useImperativeHandle(handle, () => ({
    draw(project) {
      const pose = usePose.getState();
      const { measured } = pose;
      const { pair, unit, fraction } = useView.getState();
      const { side } = corner.design.corner;
      const placeOf = (point: Vec3) => project(shownPoint(side, point));
      const touching = measured === undefined ? [] : touchingPairs(corner, measured);
      drawCrosses(
        crosses.current,
        touching.flatMap((one) => {
          const found = measured && measuredPair(corner, measured, one);
          return found && Number.isFinite(found.pointA[0]) ? [placeOf(found.pointA)] : [];
        }),
      );
      const found = measured && pair !== undefined ? measuredPair(corner, measured, pair) : undefined;
      if (found === undefined || !Number.isFinite(found.clearanceMm)) return clear();
      const figures = figuresIn(unit);
      const text =
        found.state !== 'touches'
          ? withFraction(`${figures.least(found.clearanceMm)} ${unit}`, found.clearanceMm, { unit, fraction })
          : touchText(found.clearanceMm, found.errorMm, figures);
      show(dimensionDrawing(placeOf(found.pointA), placeOf(found.pointB)), text, found.state);
      // A value of an earlier pose is dimmed until the current pose is measured.
      label.current?.toggleAttribute('data-stale', measuredNow(pose) === undefined);
    },
  }));

  const clear = () => {
    lines.current?.setAttribute('d', '');
    halo.current?.setAttribute('d', '');
    if (label.current) label.current.hidden = true;
  };
  const show = ({ path, labelAt }: DimensionDrawing, text: string, state: string) => {
    lines.current?.setAttribute('d', path);
    halo.current?.setAttribute('d', path);
    if (label.current === null) return;
    label.current.hidden = false;
    if (words.current) words.current.textContent = text;
    label.current.dataset.state = state;
    label.current.style.transform = `translate(${labelAt.x}px, ${labelAt.y}px) translate(-50%, -50%)`;
  };
  useEffect(clear, []);

  return (
    <div className="overlay" aria-hidden="true">
      <svg width="100%" height="100%" aria-hidden="true">
        <g ref={crosses} className="touch-crosses" />
        <path ref={halo} className="dimension-halo" />
        <path ref={lines} className="dimension" />
      </svg>
      <div ref={label} className="dimension-label" data-testid="dimension" hidden>
        {MARKED.map((state) => (
          <StateMark key={state} state={state} />
        ))}
        <span ref={words} />
      </div>
    </div>
  );
}

function drawCrosses(group: SVGGElement | null, places: readonly Place[]): void {
  if (group === null) return;
  while (group.children.length > places.length) group.lastChild?.remove();
  while (group.children.length < places.length) {
    const cross = document.createElementNS('http://www.w3.org/2000/svg', 'path');
    cross.setAttribute('d', CROSS);
    group.append(cross);
  }
  places.forEach(({ x, y }, i) => {
    group.children[i].setAttribute('transform', `translate(${x} ${y})`);
  });
}

/** "touches, 19.30 mm deep", the depth rounded up; "touches, at least 19.20 mm deep" if it has no upper bound. */
function touchText(clearanceMm: number, errorMm: number, figures: Figures): string {
  if (errorMm === Number.POSITIVE_INFINITY)
    return `touches, ${figures.withErrorAndUnit(clearanceMm, errorMm)}`;
  return clearanceMm < 0 ? `touches, ${figures.bound(-clearanceMm)} ${figures.unit} deep` : 'touches';
}
