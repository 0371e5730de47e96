import { type RefObject, useImperativeHandle, useRef } from 'react';
import type { OverlayHandle } from './DimensionOverlay.tsx';
import { ARROW_PX, type MarkerArrow, markerArrows } from './markerDrawing.ts';

/** Half size of the marker, px: an arrow and its name. */
const HALF_PX = ARROW_PX + 28;
/** From the tip of an arrow to the middle of its name, px: above or below, and how much more beside. */
const NAME_PX = { gap: 8, beside: 8 };

/** Marker on the picture: arrows up and to the vehicle's front. */
export function DirectionMarker({ handle }: { handle: RefObject<OverlayHandle | null> }) {
  const group = useRef<SVGGElement>(null);
  useImperativeHandle(handle, () => ({
    draw(project) {
      const arrows = markerArrows(project);
      for (const name of ['up', 'front'] as const)
        drawArrow(
          group.current?.querySelector(`[data-name=${name}]`),
          arrows.find((one) => one.name === name),
        );
    },
  }));
  return (
    <svg className="direction-marker" width={2 * HALF_PX} height={2 * HALF_PX} aria-hidden="true">
      <g ref={group} transform={`translate(${HALF_PX} ${HALF_PX})`}>
        <circle r="2" />
        {['up', 'front'].map((name) => (
          <g key={name} data-name={name}>
            <path />
            <text>{name}</text>
          </g>
        ))}
      </g>
    </svg>
  );
}

function drawArrow(drawn: Element | null | undefined, arrow: MarkerArrow | undefined): void {
  if (drawn == null) return;
  drawn.toggleAttribute('hidden', arrow === undefined);
  if (arrow === undefined) return;
  const { x, y } = arrow;
  const length = Math.hypot(x, y);
  const [ux, uy] = [x / length, y / length];
  const head = (side: 1 | -1) => `${x - 5 * ux + side * 3 * uy} ${y - 5 * uy - side * 3 * ux}`;
  drawn.querySelector('path')?.setAttribute('d', `M0 0L${x} ${y}M${head(1)}L${x} ${y}L${head(-1)}`);
  const text = drawn.querySelector('text');
  text?.setAttribute('x', String(x + (NAME_PX.gap + NAME_PX.beside * Math.abs(ux)) * ux));
  text?.setAttribute('y', String(y + NAME_PX.gap * uy + 3));
}
