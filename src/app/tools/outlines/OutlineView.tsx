import { type RefObject, useEffect, useRef } from 'react';
import { screenAxes } from '../../../math/screenAxes.ts';
import { dot, sub, type Vec3 } from '../../../math/vec.ts';
import { linesPath, ontoScreen } from '../../../report/drawings/ontoScreen.ts';
import { contourOf } from '../../../solids/contour.ts';
import { useSize } from '../../kit/useSize.ts';
import type { OpenCorner } from '../../state/engine.ts';
import { isGlass } from '../../state/looks.ts';
import { usePose } from '../../state/poseStore.ts';
import { useSection } from '../../state/sectionStore.ts';
import { useView } from '../../state/viewStore.ts';
import type { OverlayHandle } from '../../view3d/DimensionOverlay.tsx';
import type { Place } from '../../view3d/dimensionDrawing.ts';
import { onOverlayMounted } from '../../view3d/overlayMounted.ts';
import { useTouchingSolids } from '../../view3d/useTouching.ts';
import { useHold } from '../hold/holdStore.ts';
import { zoneOutlines } from '../zones/zoneOutline.ts';
import { CutOutlines } from './CutOutlines.tsx';
import { useEdges } from './useEdges.ts';
import { usePlanView } from './usePlanView.ts';

interface OutlineViewProps {
  corner: OpenCorner;
  /** The same overlays as over the picture. */
  overlays: readonly RefObject<OverlayHandle | null>[];
}

/**
 * The corner in outlines, drawn without a graphics card: of each part the edges that the part itself does not hide, and the
 * current section. Parts do not hide each other.
 */
export default function OutlineView({ corner, overlays }: OutlineViewProps) {
  const [box, size] = useSize<HTMLDivElement>();
  const { view, pointer } = usePlanView(corner, box, size, choose);
  const edges = useEdges(corner.solids);
  const hidden = useView((state) => state.hidden);
  const seeThrough = useView((state) => state.seeThrough);
  const part = useView((state) => state.part);
  const pair = useView((state) => state.pair);
  const zonesShown = useView((state) => state.zonesShown);
  const cut = useSection((section) => section.kind !== undefined);
  const touching = useTouchingSolids(corner);
  const paths = useRef(new Map<string, SVGPathElement>());
  const zones = useRef<SVGPathElement>(null);
  const { side } = corner.design.corner;
  const chosen = pair === undefined ? undefined : corner.pairs[pair];
  const eye = view?.eye;

  useEffect(() => {
    if (eye === undefined) return;
    const draw = () => {
      const { drawn } = usePose.getState();
      if (drawn === undefined) return;
      for (const solid of corner.solids) {
        const known = edges.get(solid);
        if (known === undefined) continue;
        const projection = ontoScreen(drawn[solid.carrier], eye, side);
        const ends = [...contourOf(known, projection.eye)].flatMap((edge) => [
          known.vertices[2 * edge],
          known.vertices[2 * edge + 1],
        ]);
        const path = linesPath(projection, (solid.shown ?? solid.mesh).positions, ends);
        paths.current.get(solid.id)?.setAttribute('d', path);
      }
      if (zones.current === null) return;
      const carriers = chosen === undefined ? [] : [chosen.a, chosen.b].map((i) => corner.solids[i].carrier);
      const points = zoneOutlines(zonesShown && chosen !== undefined ? chosen.zones : []);
      const projections = [...new Set(carriers)].map((carrier) => ontoScreen(drawn[carrier], eye, side));
      zones.current.setAttribute('d', projections.map((one) => linesPath(one, points)).join(''));
    };
    const inFrames = oncePerFrame(draw);
    draw();
    const stop = usePose.subscribe((now, before) => {
      if (now.drawn !== before.drawn) inFrames.request();
    });
    return () => {
      stop();
      inFrames.end();
    };
  }, [corner, edges, eye, side, chosen, zonesShown]);

  useEffect(() => {
    if (view === undefined) return;
    const { right, up } = screenAxes(view.eye);
    const project = (point: Vec3): Place => {
      const off = sub(point, view.target);
      return {
        x: size.width / 2 + view.pxPerMm * dot(off, right),
        y: size.height / 2 - view.pxPerMm * dot(off, up),
      };
    };
    const draw = () => {
      for (const overlay of overlays) overlay.current?.draw(project);
    };
    const inFrames = oncePerFrame(draw);
    draw();
    const stops = [
      ...[usePose, useView, useSection, useHold].map((store) => store.subscribe(inFrames.request)),
      onOverlayMounted(inFrames.request),
    ];
    return () => {
      for (const stop of stops) stop();
      inFrames.end();
    };
  }, [view, size, overlays]);

  const lookOf = (index: number) => {
    if (cut || (chosen !== undefined && chosen.a !== index && chosen.b !== index)) return 'ghost';
    return seeThrough && isGlass(corner.solids[index].kind) ? 'glass' : 'solid';
  };
  const at = view === undefined ? undefined : originOf(view, size);
  return (
    <div ref={box} className="outline-view" data-testid="outlines" {...pointer}>
      <svg width="100%" height="100%" aria-hidden="true">
        <g transform={at && `translate(${at.x} ${at.y}) scale(${view?.pxPerMm})`}>
          {corner.solids.map(({ id, partIndex }, index) =>
            hidden.has(id) ? null : (
              <g
                key={id}
                className="outline"
                data-look={lookOf(index)}
                data-touches={touching.has(index)}
                data-chosen={part === partIndex}
              >
                <path
                  id={`outline-${id}`}
                  ref={(path) => {
                    if (path) paths.current.set(id, path);
                    else paths.current.delete(id);
                  }}
                />
                <use href={`#outline-${id}`} className="outline-hit" data-part={partIndex} />
              </g>
            ),
          )}
          {view !== undefined && cut && <CutOutlines corner={corner} eye={view.eye} />}
          <path ref={zones} className="outline-zones" />
        </g>
      </svg>
    </div>
  );
}

/** Selects the part whose outline was pressed; selects none if there is no outline. */
function choose(pressed: Element): void {
  if (useView.getState().tape) return;
  const { part } = (pressed as SVGElement).dataset;
  useView.setState({ part: part === undefined ? undefined : Number(part) });
}

/** Screen position of the vehicle's origin, px. */
function originOf(
  { eye, target, pxPerMm }: { eye: Vec3; target: Vec3; pxPerMm: number },
  size: { width: number; height: number },
): Place {
  const { right, up } = screenAxes(eye);
  return {
    x: size.width / 2 - pxPerMm * dot(target, right),
    y: size.height / 2 + pxPerMm * dot(target, up),
  };
}

/** Runs a function at most once per frame, at the frame after a request. */
function oncePerFrame(act: () => void): { request(): void; end(): void } {
  let frame = 0;
  return {
    request() {
      if (frame !== 0) return;
      frame = requestAnimationFrame(() => {
        frame = 0;
        act();
      });
    },
    end: () => cancelAnimationFrame(frame),
  };
}
