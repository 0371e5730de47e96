import { Canvas } from '@react-three/fiber';
import { Fragment, lazy, type RefObject, Suspense, useState } from 'react';
import { TokensContext, useTokens } from '../../kit/tokens.ts';
import { useCorner } from '../../state/cornerStore.ts';
import type { OpenCorner } from '../../state/engine.ts';
import { useSpace } from '../../state/spaceStore.ts';
import { useView } from '../../state/viewStore.ts';
import { SectionCuts } from '../../tools/section/SectionCuts.tsx';
import { CameraRig, EYE_DISTANCE_MM } from '../../view3d/CameraRig.tsx';
import { ContextWatch } from '../../view3d/ContextWatch.tsx';
import type { OverlayHandle } from '../../view3d/DimensionOverlay.tsx';
import { Lights } from '../../view3d/Lights.tsx';
import { makeRenderer } from '../../view3d/makeRenderer.ts';
import { OverlayDriver } from '../../view3d/OverlayDriver.tsx';
import { Pacer } from '../../view3d/Pacer.tsx';
import { usePictureDue } from '../../view3d/usePictureDue.ts';
import { Parts } from './Parts.tsx';
import { Shaders } from './Shaders.tsx';

/** Loaded on first use, so that the first picture does not wait for them. */
const ShadePointer = lazy(() => import('../../tools/tint/ShadePointer.tsx'));
const TapePointer = lazy(() => import('../../tools/tape/TapePointer.tsx'));
const SpaceGhost = lazy(() => import('../../tools/space/SpaceGhost.tsx'));
const ZoneShapes = lazy(() => import('../../tools/zones/ZoneShapes.tsx'));

interface PictureProps {
  corner: OpenCorner | undefined;
  overlays: readonly RefObject<OverlayHandle | null>[];
  /** The graphics context is lost: neither the picture nor its overlays are drawn. */
  lost: boolean;
  onLost(lost: boolean): void;
}

/** The corner in three dimensions. Throws `NoGraphics` during the render if the browser has no WebGL 2. */
export function Picture({ corner, overlays, lost, onLost }: PictureProps) {
  const tokens = useTokens();
  const tape = useView((view) => view.tape);
  const gapTint = useView((view) => view.gapTint);
  const zonesShown = useView((view) => view.zonesShown);
  const hasSpace = useSpace(({ space }) => space !== undefined);
  const opened = useCorner((state) => state.opened);
  const due = usePictureDue(corner);
  const [, setRendererMade] = useState(false);
  return (
    <Canvas
      orthographic
      flat
      gl={async (options) => {
        const renderer = await makeRenderer(options);
        // Makes the canvas use its renderer at once; without this render it waits 0.3 s.
        setTimeout(() => setRendererMade(true));
        return renderer;
      }}
      frameloop="demand"
      // More than two pixels per CSS pixel make no visible difference.
      dpr={[0.5, 2]}
      camera={{ up: [0, 0, 1], position: [-EYE_DISTANCE_MM, 0, 0], near: 10, far: 2 * EYE_DISTANCE_MM }}
      style={{ visibility: lost ? 'hidden' : undefined }}
      onPointerMissed={(event) => {
        if (event.type === 'click' && !tape) useView.setState({ part: undefined });
      }}
    >
      <TokensContext value={tokens}>
        <ContextWatch onChange={onLost} />
        <Lights />
        <Shaders />
        <Pacer due={due} />
        {corner !== undefined && (
          // A change of the same file keeps the camera.
          <Fragment key={opened}>
            <Parts corner={corner} />
            <CameraRig corner={corner} />
          </Fragment>
        )}
        {corner !== undefined && (
          <Fragment key={corner.design.hash}>
            <SectionCuts corner={corner} />
            {!lost && <OverlayDriver handles={overlays} />}
            <Suspense>
              {tape && <TapePointer corner={corner} />}
              {gapTint && <ShadePointer />}
              {zonesShown && <ZoneShapes corner={corner} />}
              {hasSpace && <SpaceGhost corner={corner} />}
            </Suspense>
          </Fragment>
        )}
      </TokensContext>
    </Canvas>
  );
}
