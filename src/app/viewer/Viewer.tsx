import { Canvas } from '@react-three/fiber';
import { Fragment, lazy, Suspense, useEffect, useId, useRef, useState } from 'react';
import type { OpenCorner } from '../engine.ts';
import { HeldPoses } from '../hold/HeldPoses.tsx';
import { HoldOverlay } from '../hold/HoldOverlay.tsx';
import { PointsOverlay } from '../points/PointsOverlay.tsx';
import { SectionBar } from '../section/SectionBar.tsx';
import { SectionCuts } from '../section/SectionCuts.tsx';
import { SectionOverlay } from '../section/SectionOverlay.tsx';
import { useCorner } from '../stores/cornerStore.ts';
import { useView } from '../stores/viewStore.ts';
import { TokensContext, useTokens } from '../tokens.ts';
import { CameraRig, EYE_DISTANCE_MM } from './CameraRig.tsx';
import { DimensionOverlay, type OverlayHandle } from './DimensionOverlay.tsx';
import { DirectionMarker } from './DirectionMarker.tsx';
import { graphicsReady } from './drawing.ts';
import { Lights } from './Lights.tsx';
import { LitOverlay } from './LitOverlay.tsx';
import { makeRenderer } from './makeRenderer.ts';
import { OverlayDriver } from './OverlayDriver.tsx';
import { Pacer } from './Pacer.tsx';
import { Parts } from './Parts.tsx';
import { PoseNotice } from './PoseNotice.tsx';
import { Shaders } from './Shaders.tsx';
import { usePictureDue } from './usePictureDue.ts';
import { ViewBar } from './ViewBar.tsx';
import { ViewSummary } from './ViewSummary.tsx';

/** Only when it is taken out: the first picture need not wait for it. */
const TapeOverlay = lazy(() => import('../tape/TapeOverlay.tsx'));
const TapePanel = lazy(() => import('../tape/TapePanel.tsx'));
const ShadeLegend = lazy(() => import('../shading/ShadeLegend.tsx'));
const ShadePointer = lazy(() => import('../shading/ShadePointer.tsx'));
const TapePointer = lazy(() => import('../tape/TapePointer.tsx'));
const ZoneLegend = lazy(() => import('../zones/ZoneLegend.tsx'));
const ZoneShapes = lazy(() => import('../zones/ZoneShapes.tsx'));

/** The bench: the corner in three dimensions, true to scale in every direction (no perspective). */
export function Viewer({ corner }: { corner: OpenCorner | undefined }) {
  const tokens = useTokens();
  const overlay = useRef<OverlayHandle>(null);
  const sectionOverlay = useRef<OverlayHandle>(null);
  const litOverlay = useRef<OverlayHandle>(null);
  const tapeOverlay = useRef<OverlayHandle>(null);
  const tape = useView((view) => view.tape);
  const holdOverlay = useRef<OverlayHandle>(null);
  const marker = useRef<OverlayHandle>(null);
  const summary = useId();
  const pointsOverlay = useRef<OverlayHandle>(null);
  const opened = useCorner((state) => state.opened);
  const gapTint = useView((view) => view.gapTint);
  const zonesShown = useView((view) => view.zonesShown);
  const [ready, setReady] = useState(false);
  const [, setRendererMade] = useState(false);
  const due = usePictureDue(corner);
  useEffect(() => void graphicsReady().then(() => setReady(true)), []);
  return (
    <section className="viewer" aria-label="The corner in three dimensions" aria-describedby={summary}>
      {ready && (
        <Canvas
          orthographic
          flat
          gl={async (options) => {
            const renderer = await makeRenderer(options);
            // The canvas looks at once whether it has its renderer: left to itself it does after 0.3 s.
            setTimeout(() => setRendererMade(true));
            return renderer;
          }}
          frameloop="demand"
          dpr={[1, 2]}
          camera={{ up: [0, 0, 1], position: [-EYE_DISTANCE_MM, 0, 0], near: 10, far: 2 * EYE_DISTANCE_MM }}
          onPointerMissed={(event) => {
            if (event.type === 'click' && !tape) useView.setState({ part: undefined });
          }}
          fallback={<p>This browser cannot draw in three dimensions (WebGL 2 is missing or switched off).</p>}
        >
          <TokensContext value={tokens}>
            <Lights />
            <Shaders />
            <Pacer due={due} />
            {corner !== undefined && (
              // A corner of the same file that was changed is looked at from where it was.
              <Fragment key={opened}>
                <Parts corner={corner} />
                <CameraRig corner={corner} />
              </Fragment>
            )}
            {corner !== undefined && (
              <Fragment key={corner.design.hash}>
                <SectionCuts corner={corner} />
                <OverlayDriver
                  handles={[
                    overlay,
                    sectionOverlay,
                    holdOverlay,
                    litOverlay,
                    tapeOverlay,
                    pointsOverlay,
                    marker,
                  ]}
                />
                <Suspense>
                  {tape && <TapePointer corner={corner} />}
                  {gapTint && <ShadePointer />}
                  {zonesShown && <ZoneShapes corner={corner} />}
                </Suspense>
              </Fragment>
            )}
          </TokensContext>
        </Canvas>
      )}
      {corner !== undefined && (
        <Fragment key={corner.design.hash}>
          <HoldOverlay corner={corner} handle={holdOverlay} />
          <DimensionOverlay corner={corner} handle={overlay} />
          <LitOverlay corner={corner} handle={litOverlay} />
          <DirectionMarker handle={marker} />
          <SectionOverlay corner={corner} handle={sectionOverlay} />
          {tape && (
            <Suspense>
              <TapeOverlay corner={corner} handle={tapeOverlay} />
            </Suspense>
          )}
          <div className="viewer-head">
            <ViewSummary corner={corner} id={summary} />
            <ViewBar corner={corner} />
            <SectionBar corner={corner} />
            {tape && (
              <Suspense>
                <TapePanel corner={corner} />
              </Suspense>
            )}
          </div>
          <div className="viewer-foot">
            {gapTint && (
              <Suspense>
                <ShadeLegend corner={corner} />
              </Suspense>
            )}
            {zonesShown && (
              <Suspense>
                <ZoneLegend corner={corner} />
              </Suspense>
            )}
            <HeldPoses corner={corner} />
            <PoseNotice corner={corner} />
          </div>
        </Fragment>
      )}
      {/* Stands while the corner is made anew under the hand that drags a point. */}
      {corner !== undefined && <PointsOverlay corner={corner} handle={pointsOverlay} />}
    </section>
  );
}
