import { type RefObject, useImperativeHandle, useMemo, useRef } from 'react';
import { shownPoint } from '../../../design/side.ts';
import { applyPoint } from '../../../math/rigid.ts';
import type { Vec3 } from '../../../math/vec.ts';
import type { Carriers } from '../../../mechanism/pose.ts';
import { figuresIn } from '../../../report/figures.ts';
import { withFraction } from '../../kit/words.ts';
import type { OpenCorner } from '../../state/engine.ts';
import { usePose } from '../../state/poseStore.ts';
import { useView } from '../../state/viewStore.ts';
import type { OverlayHandle } from '../../view3d/DimensionOverlay.tsx';
import { dimensionDrawing, type Place } from '../../view3d/dimensionDrawing.ts';
import { useDrawnWhenMounted } from '../../view3d/overlayMounted.ts';
import type { Pick } from '../../workers/tape/pick.ts';
import { useTape } from './tapeStore.ts';
import { useTapeBetween } from './useTapeBetween.ts';

type Project = (point: Vec3) => Place;
const text = ({ x, y }: Place) => `${x.toFixed(1)} ${y.toFixed(1)}`;
const CROSS_PX = 5;

interface TapeOverlayProps {
  corner: OpenCorner;
  handle: RefObject<OverlayHandle | null>;
}

/** Over the picture: the picks, the feature under the pointer, and the line between the two picks with its length. */
export default function TapeOverlay({ corner, handle }: TapeOverlayProps) {
  const between = useTapeBetween(corner);
  const offeredPath = useRef<SVGPathElement>(null);
  const pickedPath = useRef<SVGPathElement>(null);
  const halo = useRef<SVGPathElement>(null);
  const line = useRef<SVGPathElement>(null);
  const label = useRef<HTMLDivElement>(null);
  const drawer = useMemo(() => new PickDrawer(corner), [corner]);

  useDrawnWhenMounted();
  useImperativeHandle(handle, () => ({
    draw(project) {
      const { drawn } = usePose.getState();
      if (drawn === undefined) return;
      const { picks, offered } = useTape.getState();
      const { unit, fraction } = useView.getState();
      const pathOf = (pick: Pick) => drawer.path(pick, drawn, project);
      offeredPath.current?.setAttribute('d', offered === undefined ? '' : pathOf(offered));
      pickedPath.current?.setAttribute('d', picks.map(pathOf).join(''));
      const measured = between?.(drawn);
      const { side } = corner.design.corner;
      const drawing =
        measured &&
        dimensionDrawing(project(shownPoint(side, measured.from)), project(shownPoint(side, measured.to)));
      halo.current?.setAttribute('d', drawing?.path ?? '');
      line.current?.setAttribute('d', drawing?.path ?? '');
      if (label.current === null) return;
      label.current.hidden = measured === undefined;
      if (measured === undefined || drawing === undefined) return;
      label.current.textContent = withFraction(
        figuresIn(unit).withErrorAndUnit(measured.distanceMm, measured.errorMm),
        measured.distanceMm,
        { unit, fraction },
      );
      const { x, y } = besidePanel(label.current, drawing.labelAt);
      label.current.style.transform = `translate(${x}px, ${y}px) translate(-50%, -50%)`;
    },
  }));

  return (
    <div className="overlay" aria-hidden="true">
      <svg width="100%" height="100%" aria-hidden="true">
        <path ref={pickedPath} className="tape-picked" />
        <path ref={offeredPath} className="tape-offered" />
        <path ref={halo} className="dimension-halo" />
        <path ref={line} className="dimension" />
      </svg>
      <div ref={label} className="dimension-label tape-label" data-testid="tape-length" hidden />
    </div>
  );
}

/** Gap between the label and the panel, px. */
const CLEAR_PX = 6;

/** Position of the label; to the left of the tape's panel if the panel would cover it. */
function besidePanel(label: HTMLElement, at: Place): Place {
  const view = label.closest('.viewer');
  const panel = view?.querySelector('.tape-panel')?.getBoundingClientRect();
  if (view === null || panel === undefined) return at;
  const { left, top } = view.getBoundingClientRect();
  const [halfWidth, halfHeight] = [label.offsetWidth / 2 + CLEAR_PX, label.offsetHeight / 2 + CLEAR_PX];
  const covered =
    left + at.x + halfWidth > panel.left &&
    left + at.x - halfWidth < panel.right &&
    top + at.y + halfHeight > panel.top &&
    top + at.y - halfHeight < panel.bottom;
  return covered ? { x: panel.left - left - halfWidth, y: at.y } : at;
}

/** Draws picks as paths on the screen. */
class PickDrawer {
  private readonly corner: OpenCorner;

  constructor(corner: OpenCorner) {
    this.corner = corner;
  }

  path({ solid, what }: Pick, carriers: Carriers, project: Project): string {
    const { design, solids } = this.corner;
    const { side } = design.corner;
    const vehicleFromCarrier = carriers[solids[solid].carrier];
    const placeOf = (point: Vec3) => project(shownPoint(side, applyPoint(vehicleFromCarrier, point)));
    if (what.kind === 'place') return cross(placeOf(what.at));
    const lines = what.outline.map((line) => {
      const places = Array.from({ length: line.length / 3 }, (_, i) =>
        text(placeOf([line[3 * i], line[3 * i + 1], line[3 * i + 2]])),
      );
      return `M${places.join('L')}`;
    });
    return lines.join('') + (what.kind === 'ring' ? cross(placeOf(what.centre)) : '');
  }
}

const cross = ({ x, y }: Place): string =>
  `M${text({ x: x - CROSS_PX, y })}H${(x + CROSS_PX).toFixed(1)}M${text({ x, y: y - CROSS_PX })}V${(y + CROSS_PX).toFixed(1)}`;
