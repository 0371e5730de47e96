import { type RefObject, useImperativeHandle, useRef } from 'react';
import { shownPoint } from '../../design/side.ts';
import { applyPoint } from '../../math/rigid.ts';
import type { OpenCorner } from '../state/engine.ts';
import { usePose } from '../state/poseStore.ts';
import { useView } from '../state/viewStore.ts';
import type { OverlayHandle } from './DimensionOverlay.tsx';
import { tickedLine } from './dimensionDrawing.ts';

/** Overlay on the picture: the selected dimension of a part's sheet, drawn on its part with its value. */
export function LitOverlay({
  corner,
  handle,
}: {
  corner: OpenCorner;
  handle: RefObject<OverlayHandle | null>;
}) {
  const line = useRef<SVGPathElement>(null);
  const halo = useRef<SVGPathElement>(null);
  const label = useRef<HTMLDivElement>(null);
  useImperativeHandle(handle, () => ({
    draw(project) {
      const { lit } = useView.getState();
      const { drawn } = usePose.getState();
      const off = lit === undefined || drawn === undefined;
      const { side } = corner.design.corner;
      const places = off
        ? []
        : lit.places.map((p) => project(shownPoint(side, applyPoint(drawn[lit.carrier], p))));
      const drawing = places.length === 0 ? undefined : tickedLine(places);
      for (const path of [line.current, halo.current]) path?.setAttribute('d', drawing?.path ?? '');
      if (label.current === null) return;
      label.current.hidden = drawing === undefined || lit?.text === '';
      label.current.textContent = lit?.text ?? '';
      if (drawing === undefined) return;
      const { x, y } = drawing.labelAt;
      label.current.style.transform = `translate(${x}px, ${y}px) translate(-50%, -50%)`;
    },
  }));
  return (
    <div className="overlay" aria-hidden="true">
      <svg width="100%" height="100%" aria-hidden="true">
        <path ref={halo} className="dimension-halo" />
        <path ref={line} className="lit-line" data-testid="lit-line" />
      </svg>
      <div ref={label} className="dimension-label lit-label" data-testid="lit-label" hidden />
    </div>
  );
}
