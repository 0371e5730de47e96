import { type RefObject, useEffect, useRef } from 'react';
import { dot, sub, type Vec3 } from '../../math/vec.ts';
import type { OpenCorner } from '../engine.ts';
import { useHold } from '../hold/holdStore.ts';
import { useSection } from '../section/sectionStore.ts';
import { usePose } from '../stores/poseStore.ts';
import { useView } from '../stores/viewStore.ts';
import { GLASS } from '../tones.ts';
import { useSize } from '../useSize.ts';
import type { OverlayHandle } from '../viewer/DimensionOverlay.tsx';
import type { Place } from '../viewer/dimensionDrawing.ts';
import { screenAxes } from '../viewer/frame.ts';
import { useTouchingSolids } from '../viewer/useTouching.ts';
import { zoneOutlines } from '../zones/zoneOutline.ts';
import { CutOutlines } from './CutOutlines.tsx';
import { contourOf } from './contour.ts';
import { linesPath, ontoScreen } from './ontoScreen.ts';
import { useEdges } from './useEdges.ts';
import { usePlanView } from './usePlanView.ts';

interface OutlineViewProps {
  corner: OpenCorner;
  /** What is drawn over the picture is drawn over this as well. */
  overlays: readonly RefObject<OverlayHandle | null>[];
}

/**
 * The corner in outlines, drawn without a graphics card: of each part what the part itself does not hide from the eye, and
 * the section in hand. Other parts hide nothing.
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
        const seen = ontoScreen(drawn[solid.carrier], eye, side);
        const ends = [...contourOf(known, seen.eye)].flatMap((edge) => [
          known.vertices[2 * edge],
          known.vertices[2 * edge + 1],
        ]);
        const path = linesPath(seen, (solid.shown ?? solid.mesh).positions, ends);
        paths.current.get(solid.id)?.setAttribute('d', path);
      }
      if (zones.current === null) return;
      const carriers = chosen === undefined ? [] : [chosen.a, chosen.b].map((i) => corner.solids[i].carrier);
      const points = zoneOutlines(zonesShown && chosen !== undefined ? chosen.zones : []);
      const seen = [...new Set(carriers)].map((carrier) => ontoScreen(drawn[carrier], eye, side));
      zones.current.setAttribute('d', seen.map((one) => linesPath(one, points)).join(''));
    };
    const inFrames = oncePerFrame(draw);
    draw();
    const stop = usePose.subscribe((now, before) => {
      if (now.drawn !== before.drawn) inFrames.ask();
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
    const stops = [usePose, useView, useSection, useHold].map((store) => store.subscribe(inFrames.ask));
    return () => {
      for (const stop of stops) stop();
      inFrames.end();
    };
  }, [view, size, overlays]);

  const lookOf = (index: number) => {
    if (cut || (chosen !== undefined && chosen.a !== index && chosen.b !== index)) return 'ghost';
    return seeThrough && GLASS.includes(corner.solids[index].kind) ? 'glass' : 'solid';
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

/** Takes the part into hand whose outline was pressed; none where no outline is. */
function choose(pressed: Element): void {
  if (useView.getState().tape) return;
  const { part } = (pressed as SVGElement).dataset;
  useView.setState({ part: part === undefined ? undefined : Number(part) });
}

/** Where the vehicle's origin is seen, px. */
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

/** Does something at the next frame, once for however many ask for it. */
function oncePerFrame(act: () => void): { ask(): void; end(): void } {
  let frame = 0;
  return {
    ask() {
      if (frame !== 0) return;
      frame = requestAnimationFrame(() => {
        frame = 0;
        act();
      });
    },
    end: () => cancelAnimationFrame(frame),
  };
}
