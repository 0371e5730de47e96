import { Canvas } from '@react-three/fiber';
import { Fragment, lazy, type RefObject, Suspense, useState } from 'react';
import type { OpenCorner } from '../engine.ts';
import { SectionCuts } from '../section/SectionCuts.tsx';
import { useCorner } from '../stores/cornerStore.ts';
import { useView } from '../stores/viewStore.ts';
import { TokensContext, useTokens } from '../tokens.ts';
import { CameraRig, EYE_DISTANCE_MM } from './CameraRig.tsx';
import { ContextWatch } from './ContextWatch.tsx';
import type { OverlayHandle } from './DimensionOverlay.tsx';
import { Lights } from './Lights.tsx';
import { makeRenderer } from './makeRenderer.ts';
import { OverlayDriver } from './OverlayDriver.tsx';
import { Pacer } from './Pacer.tsx';
import { Parts } from './Parts.tsx';
import { Shaders } from './Shaders.tsx';
import { usePictureDue } from './usePictureDue.ts';

/** Only when they are asked for: the first picture need not wait for them. */
const ShadePointer = lazy(() => import('../shading/ShadePointer.tsx'));
const TapePointer = lazy(() => import('../tape/TapePointer.tsx'));
const ZoneShapes = lazy(() => import('../zones/ZoneShapes.tsx'));

interface PictureProps {
  corner: OpenCorner | undefined;
  overlays: readonly RefObject<OverlayHandle | null>[];
  /** The graphics card has dropped the picture: nothing is drawn of it or over it. */
  lost: boolean;
  onLost(lost: boolean): void;
}

/** The corner in three dimensions. Throws `NoGraphics` while it is rendered where the browser cannot draw. */
export function Picture({ corner, overlays, lost, onLost }: PictureProps) {
  const tokens = useTokens();
  const tape = useView((view) => view.tape);
  const gapTint = useView((view) => view.gapTint);
  const zonesShown = useView((view) => view.zonesShown);
  const opened = useCorner((state) => state.opened);
  const due = usePictureDue(corner);
  const [, setRendererMade] = useState(false);
  return (
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
          // A corner of the same file that was changed is looked at from where it was.
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
            </Suspense>
          </Fragment>
        )}
      </TokensContext>
    </Canvas>
  );
}
