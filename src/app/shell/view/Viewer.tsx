import { Fragment, lazy, Suspense, useCallback, useEffect, useId, useMemo, useRef, useState } from 'react';
import { useCorner } from '../../state/cornerStore.ts';
import type { OpenCorner } from '../../state/engine.ts';
import { useSection } from '../../state/sectionStore.ts';
import { useView } from '../../state/viewStore.ts';
import { useHold } from '../../tools/hold/holdStore.ts';
import { DimensionOverlay, type OverlayHandle } from '../../view3d/DimensionOverlay.tsx';
import { DirectionMarker } from '../../view3d/DirectionMarker.tsx';
import { LitOverlay } from '../../view3d/LitOverlay.tsx';
import { PoseNotice } from '../../view3d/PoseNotice.tsx';
import { graphicsReady } from '../../workers/drawing/drawing.ts';
import { Picture } from './Picture.tsx';
import { PictureBoundary } from './PictureBoundary.tsx';
import { PictureNotice } from './PictureNotice.tsx';
import { ViewBar } from './ViewBar.tsx';
import { ViewSummary } from './ViewSummary.tsx';

/** Loaded on first use, so that the first picture does not wait for them. */
const HeldPoses = lazy(() =>
  import('../../tools/hold/HeldPoses.tsx').then((made) => ({ default: made.HeldPoses })),
);
const HoldOverlay = lazy(() =>
  import('../../tools/hold/HoldOverlay.tsx').then((made) => ({ default: made.HoldOverlay })),
);
const PointsOverlay = lazy(() =>
  import('../../tools/points/PointsOverlay.tsx').then((made) => ({ default: made.PointsOverlay })),
);
const SectionBar = lazy(() =>
  import('../../tools/section/SectionBar.tsx').then((made) => ({ default: made.SectionBar })),
);
const SectionOverlay = lazy(() =>
  import('../../tools/section/SectionOverlay.tsx').then((made) => ({ default: made.SectionOverlay })),
);
const OutlineView = lazy(() => import('../../tools/outlines/OutlineView.tsx'));
const TapeOverlay = lazy(() => import('../../tools/tape/TapeOverlay.tsx'));
const TapePanel = lazy(() => import('../../tools/tape/TapePanel.tsx'));
const ShadeLegend = lazy(() => import('../../tools/tint/ShadeLegend.tsx'));
const ZoneLegend = lazy(() => import('../../tools/zones/ZoneLegend.tsx'));

/**
 * The view: the corner in three dimensions, orthographic, so that it is true to scale in every direction. Without a picture
 * it shows outlines.
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
  const hasSection = useSection((section) => section.kind !== undefined);
  const hasHeld = useHold(({ poses }) => poses.length > 0);
  const pointsShown = useView((view) => view.pointsShown);
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
          {hasHeld && (
            <Suspense>
              <HoldOverlay corner={corner} handle={holdOverlay} />
            </Suspense>
          )}
          <DimensionOverlay corner={corner} handle={overlay} />
          <LitOverlay corner={corner} handle={litOverlay} />
          {hasSection && (
            <Suspense>
              <SectionOverlay corner={corner} handle={sectionOverlay} />
            </Suspense>
          )}
          {tape && (
            <Suspense>
              <TapeOverlay corner={corner} handle={tapeOverlay} />
            </Suspense>
          )}
          <div className="viewer-head">
            <ViewSummary corner={corner} id={summary} />
            <ViewBar corner={corner} />
            {hasSection && (
              <Suspense>
                <SectionBar corner={corner} />
              </Suspense>
            )}
            {tape && (
              <Suspense>
                <TapePanel corner={corner} />
              </Suspense>
            )}
            <DirectionMarker handle={marker} />
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
            {hasHeld && (
              <Suspense>
                <HeldPoses corner={corner} />
              </Suspense>
            )}
            <PoseNotice corner={corner} />
          </div>
        </Fragment>
      )}
      {/* Stays mounted when a dragged point rebuilds the corner. */}
      {corner !== undefined && pointsShown && (
        <Suspense>
          <PointsOverlay corner={corner} handle={pointsOverlay} />
        </Suspense>
      )}
    </section>
  );
}

/** State of the picture: present, lost, or failed with the reason. */
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
      const { camera, requestView } = useView.getState();
      if (camera !== undefined) requestView('kept');
      setFailure(undefined);
      setLost(false);
      setAttempt((before) => before + 1);
    }, []),
  };
}
