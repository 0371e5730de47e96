import { OrbitControls } from '@react-three/drei';
import { useFrame, useThree } from '@react-three/fiber';
import { useEffect, useRef } from 'react';
import { type OrthographicCamera, Vector3 } from 'three';
import type { OrbitControls as Controls } from 'three-stdlib';
import { shownPoint } from '../../design/side.ts';
import { applyPoint, compose, invert } from '../../math/rigid.ts';
import { midpoint, normalize, sub, type Vec3 } from '../../math/vec.ts';
import type { Carriers } from '../../mechanism/pose.ts';
import { preventTouchScroll } from '../kit/preventTouchScroll.ts';
import { prefersReducedMotion } from '../kit/tokens.ts';
import type { OpenCorner } from '../state/engine.ts';
import { measuredPair } from '../state/measuredPair.ts';
import { type Measured, usePose } from '../state/poseStore.ts';
import { type CameraView, useView } from '../state/viewStore.ts';
import { LEAST_PX_PER_MM, listenForKeys, MOST_PX_PER_MM } from './keyView.ts';
import { requestedView } from './requestedView.ts';

/** Distance of the eye from its target; beyond any corner, so that near and far planes can stay tight. */
export const EYE_DISTANCE_MM = 4000;
const TURN_S = 0.35;
const FIRST_FRAME_S = 1 / 60;
/** A gap beyond this fraction of the half picture is brought back to the middle. */
const IN_PICTURE = 0.85;

/** Camera and controls. */
export function CameraRig({ corner }: { corner: OpenCorner }) {
  const { camera, size, gl, invalidate } = useThree();
  const controls = useRef<Controls>(null);
  const hasView = useRef(false);
  const turning = useRef<{ from: CameraView; to: CameraView; t: number } | undefined>(undefined);
  /** The carriers when the camera was last placed by the selected pair. */
  const carried = useRef<Carriers | undefined>(undefined);
  const checkedGap = useRef<Measured | undefined>(undefined);
  const viewRequest = useView((view) => view.viewRequest);
  useEffect(() => preventTouchScroll(gl.domElement), [gl]);

  // biome-ignore lint/correctness/useExhaustiveDependencies: computes the view once for each request, at the pose of that time
  useEffect(() => {
    const to = requestedView(viewRequest, corner, gl.domElement, size);
    if (to === undefined) return;
    turning.current = { from: currentView(), to, t: prefersReducedMotion() || !hasView.current ? 1 : 0 };
    hasView.current = true;
    carried.current = viewRequest.from === 'pair' ? usePose.getState().drawn : undefined;
    invalidate();
  }, [viewRequest, size.width === 0]);

  const currentView = (): CameraView => {
    const target = (controls.current?.target ?? new Vector3()).toArray() as Vec3;
    return {
      target,
      eye: normalize(sub(camera.position.toArray() as Vec3, target)),
      pxPerMm: (camera as OrthographicCamera).zoom,
    };
  };

  const storeView = () => useView.setState({ camera: currentView() });

  // biome-ignore lint/correctness/useExhaustiveDependencies: `currentView` and `invalidate` read references and stores only
  useEffect(
    () =>
      listenForKeys(gl.domElement, currentView, (to) => {
        turning.current = { from: to, to, t: 1 };
        invalidate();
      }),
    [gl],
  );

  /** Moves the camera with the first part of the selected pair. */
  const follow = () => {
    const { drawn } = usePose.getState();
    const { pair } = useView.getState();
    const before = carried.current;
    if (before === undefined || drawn === undefined || drawn === before || pair === undefined) return;
    carried.current = drawn;
    const { carrier } = corner.solids[corner.pairs[pair].a];
    const { side } = corner.design.corner;
    const moved = (target: Vec3) =>
      shownPoint(
        side,
        applyPoint(compose(drawn[carrier], invert(before[carrier])), shownPoint(side, target)),
      );
    const turn = turning.current;
    if (turn !== undefined) {
      for (const view of [turn.from, turn.to]) view.target = moved(view.target);
      return;
    }
    const target = currentView().target;
    const to = new Vector3(...moved(target));
    camera.position.add(to.clone().sub(new Vector3(...target)));
    controls.current?.target.copy(to);
    controls.current?.update();
  };

  /** Turns to the gap of the selected pair if it has jumped out of the picture to another place of the parts. */
  const recentre = () => {
    const { measured } = usePose.getState();
    const { pair } = useView.getState();
    if (carried.current === undefined || measured === checkedGap.current) return;
    checkedGap.current = measured;
    const found = measured && pair !== undefined ? measuredPair(corner, measured, pair) : undefined;
    if (found === undefined || turning.current !== undefined || !Number.isFinite(found.pointA[0])) return;
    const target = shownPoint(corner.design.corner.side, midpoint(found.pointA, found.pointB));
    const { x, y } = new Vector3(...target).project(camera);
    if (Math.max(Math.abs(x), Math.abs(y)) < IN_PICTURE) return;
    const from = currentView();
    turning.current = { from, to: { ...from, target }, t: prefersReducedMotion() ? 1 : 0 };
    invalidate();
  };

  useFrame((_, seconds) => {
    follow();
    recentre();
    const turn = turning.current;
    if (turn !== undefined) {
      // The duration of the first frame includes the idle time before it.
      turn.t = Math.min(1, turn.t + (turn.t === 0 ? FIRST_FRAME_S : seconds) / TURN_S);
      apply(
        turn.from,
        turn.to,
        turn.t * turn.t * (3 - 2 * turn.t),
        camera as OrthographicCamera,
        controls.current,
      );
      if (turn.t >= 1) {
        turning.current = undefined;
        storeView();
      }
      invalidate();
    }
  });

  return (
    <OrbitControls
      ref={controls}
      makeDefault
      enableDamping={false}
      minZoom={LEAST_PX_PER_MM}
      maxZoom={MOST_PX_PER_MM}
      onStart={() => {
        turning.current = undefined;
      }}
      onEnd={storeView}
    />
  );
}

function apply(
  from: CameraView,
  to: CameraView,
  t: number,
  camera: OrthographicCamera,
  controls: Controls | null,
): void {
  const mix = (a: Vec3, b: Vec3) => new Vector3(...a).lerp(new Vector3(...b), t);
  const target = mix(from.target, to.target);
  const eye = mix(from.eye, to.eye);
  // The mean of opposite directions is zero: use the target direction.
  if (eye.length() < 1e-3 || t >= 1) eye.set(...to.eye);
  camera.position.copy(target).addScaledVector(eye.normalize(), EYE_DISTANCE_MM);
  camera.zoom = from.pxPerMm * (to.pxPerMm / from.pxPerMm) ** t;
  camera.updateProjectionMatrix();
  if (controls === null) camera.lookAt(target);
  controls?.target.copy(target);
  controls?.update();
}
