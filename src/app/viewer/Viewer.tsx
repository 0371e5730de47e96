import { Fragment, lazy, Suspense, useCallback, useEffect, useId, useMemo, useRef, useState } from 'react';
import type { OpenCorner } from '../engine.ts';
import { HeldPoses } from '../hold/HeldPoses.tsx';
import { HoldOverlay } from '../hold/HoldOverlay.tsx';
import { PointsOverlay } from '../points/PointsOverlay.tsx';
import { SectionBar } from '../section/SectionBar.tsx';
import { SectionOverlay } from '../section/SectionOverlay.tsx';
import { useCorner } from '../stores/cornerStore.ts';
import { useView } from '../stores/viewStore.ts';
import { DimensionOverlay, type OverlayHandle } from './DimensionOverlay.tsx';
import { DirectionMarker } from './DirectionMarker.tsx';
import { graphicsReady } from './drawing.ts';
import { LitOverlay } from './LitOverlay.tsx';
import { Picture } from './Picture.tsx';
import { PictureBoundary } from './PictureBoundary.tsx';
import { PictureNotice } from './PictureNotice.tsx';
import { PoseNotice } from './PoseNotice.tsx';
import { ViewBar } from './ViewBar.tsx';
import { ViewSummary } from './ViewSummary.tsx';

/** Only when they are asked for, or needed: the first picture need not wait for them. */
const OutlineView = lazy(() => import('../outlines/OutlineView.tsx'));
const TapeOverlay = lazy(() => import('../tape/TapeOverlay.tsx'));
const TapePanel = lazy(() => import('../tape/TapePanel.tsx'));
const ShadeLegend = lazy(() => import('../shading/ShadeLegend.tsx'));
const ZoneLegend = lazy(() => import('../zones/ZoneLegend.tsx'));

/**
 * The bench: the corner in three dimensions, true to scale in every direction (no perspective). In outlines where there can
 * be no picture, or none for now.
 */
export function Viewer({ corner }: { corner: OpenCorner | undefined }) {
  const overlay = useRef<OverlayHandle>(null);
  const sectionOverlay = useRef<OverlayHandle>(null);
  const litOverlay = useRef<OverlayHandle>(null);
  const tapeOverlay = useRef<OverlayHandle>(null);
  const holdOverlay = useRef<OverlayHandle>(null);
  const marker = useRef<OverlayHandle>(null);
  const pointsOverlay = useRef<OverlayHandle>(null);
  const overlays = useMemo(
    () => [overlay, sectionOverlay, holdOverlay, litOverlay, tapeOverlay, pointsOverlay, marker],
    [],
  );
  const summary = useId();
  const tape = useView((view) => view.tape);
  const opened = useCorner((state) => state.opened);
  const gapTint = useView((view) => view.gapTint);
  const zonesShown = useView((view) => view.zonesShown);
  const [ready, setReady] = useState(false);
  useEffect(() => void graphicsReady().then(() => setReady(true)), []);
  const picture = usePicture();
  return (
    <section className="viewer" aria-label="The corner in three dimensions" aria-describedby={summary}>
      {ready && (
        <PictureBoundary key={picture.attempt} onFailure={picture.onFailure}>
          <Picture corner={corner} overlays={overlays} lost={picture.lost} onLost={picture.onLost} />
        </PictureBoundary>
      )}
      {picture.missing && corner !== undefined && (
        <Suspense key={opened}>
          <OutlineView corner={corner} overlays={overlays} />
        </Suspense>
      )}
      {corner !== undefined && (
        <Fragment key={corner.design.hash}>
          <HoldOverlay corner={corner} handle={holdOverlay} />
          <DimensionOverlay corner={corner} handle={overlay} />
          <LitOverlay corner={corner} handle={litOverlay} />
          <SectionOverlay corner={corner} handle={sectionOverlay} />
          {tape && (
            <Suspense>
              <TapeOverlay corner={corner} handle={tapeOverlay} />
            </Suspense>
          )}
          <div className="viewer-head">
            <ViewSummary corner={corner} id={summary} />
            <ViewBar corner={corner} />
            <DirectionMarker handle={marker} />
            <SectionBar corner={corner} />
            {tape && (
              <Suspense>
                <TapePanel corner={corner} />
              </Suspense>
            )}
          </div>
          <div className="viewer-foot">
            {picture.missing && <PictureNotice why={picture.why} onTry={picture.onTry} />}
            {gapTint && !picture.missing && (
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

/** Whether there is a picture, and if not, why. */
function usePicture() {
  const [attempt, setAttempt] = useState(0);
  const [failure, setFailure] = useState<Error>();
  const [lost, setLost] = useState(false);
  const missing = lost || failure !== undefined;
  useEffect(() => useView.setState({ pictured: !missing }), [missing]);
  return {
    attempt,
    lost,
    missing,
    why: failure?.message,
    onFailure: setFailure,
    onLost: setLost,
    onTry: useCallback(() => {
      const { camera, lookFrom } = useView.getState();
      if (camera !== undefined) lookFrom('kept');
      setFailure(undefined);
      setLost(false);
      setAttempt((before) => before + 1);
    }, []),
  };
}
