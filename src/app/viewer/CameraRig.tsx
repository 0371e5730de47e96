import { OrbitControls } from '@react-three/drei';
import { useFrame, useThree } from '@react-three/fiber';
import { useEffect, useRef } from 'react';
import { type OrthographicCamera, Vector3 } from 'three';
import type { OrbitControls as Controls } from 'three-stdlib';
import { shownPoint } from '../../design/side.ts';
import { applyPoint, compose, invert } from '../../math/rigid.ts';
import { midpoint, normalize, sub, type Vec3 } from '../../math/vec.ts';
import type { Carriers } from '../../mechanism/pose.ts';
import type { OpenCorner } from '../engine.ts';
import { ownTouches } from '../ownTouches.ts';
import { measuredPair } from '../stores/measuredPair.ts';
import { type Measured, usePose } from '../stores/poseStore.ts';
import { type CameraView, useView } from '../stores/viewStore.ts';
import { prefersStill } from '../tokens.ts';
import { wantedView } from './wantedView.ts';

/** The eye stands this far off: beyond any corner, so that near and far planes can stay tight. */
export const EYE_DISTANCE_MM = 4000;
const TURN_S = 0.35;
/** A gap further out than this share of half the picture is brought back to its middle. */
const IN_PICTURE = 0.85;

/** Camera and controls. */
export function CameraRig({ corner }: { corner: OpenCorner }) {
  const { camera, size, gl, invalidate } = useThree();
  const controls = useRef<Controls>(null);
  const looked = useRef(false);
  const turning = useRef<{ from: CameraView; to: CameraView; t: number } | undefined>(undefined);
  /** Where the carriers stood when the camera was last placed by the pair in hand. */
  const carried = useRef<Carriers | undefined>(undefined);
  const regained = useRef<Measured | undefined>(undefined);
  const look = useView((view) => view.look);
  useEffect(() => ownTouches(gl.domElement), [gl]);

  // biome-ignore lint/correctness/useExhaustiveDependencies: looks once for each request, from where things then stand
  useEffect(() => {
    const to = wantedView(look, corner, gl.domElement, size);
    if (to === undefined) return;
    turning.current = { from: currentView(), to, t: prefersStill() || !looked.current ? 1 : 0 };
    looked.current = true;
    carried.current = look.from === 'pair' ? usePose.getState().drawn : undefined;
    invalidate();
  }, [look, size.width === 0]);

  const currentView = (): CameraView => {
    const target = (controls.current?.target ?? new Vector3()).toArray() as Vec3;
    return {
      target,
      eye: normalize(sub(camera.position.toArray() as Vec3, target)),
      pxPerMm: (camera as OrthographicCamera).zoom,
    };
  };

  const noteView = () => useView.setState({ camera: currentView() });

  /** Moves the camera along with the place that the pair in hand has on its first part. */
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

  /** Turns to the gap of the pair in hand where it has jumped out of the picture: another place of the parts is nearest. */
  const regain = () => {
    const { measured } = usePose.getState();
    const { pair } = useView.getState();
    if (carried.current === undefined || measured === regained.current) return;
    regained.current = measured;
    const found = measured && pair !== undefined ? measuredPair(corner, measured, pair) : undefined;
    if (found === undefined || turning.current !== undefined || !Number.isFinite(found.pointA[0])) return;
    const target = shownPoint(corner.design.corner.side, midpoint(found.pointA, found.pointB));
    const { x, y } = new Vector3(...target).project(camera);
    if (Math.max(Math.abs(x), Math.abs(y)) < IN_PICTURE) return;
    const from = currentView();
    turning.current = { from, to: { ...from, target }, t: prefersStill() ? 1 : 0 };
    invalidate();
  };

  useFrame((_, seconds) => {
    follow();
    regain();
    const turn = turning.current;
    if (turn !== undefined) {
      // A frame after a rest may report a long pause: the turn is not skipped for it.
      turn.t = Math.min(1, turn.t + Math.min(seconds, 0.05) / TURN_S);
      apply(
        turn.from,
        turn.to,
        turn.t * turn.t * (3 - 2 * turn.t),
        camera as OrthographicCamera,
        controls.current,
      );
      if (turn.t >= 1) {
        turning.current = undefined;
        noteView();
      }
      invalidate();
    }
  });

  return (
    <OrbitControls
      ref={controls}
      makeDefault
      enableDamping={false}
      minZoom={0.05}
      maxZoom={60}
      onStart={() => {
        turning.current = undefined;
      }}
      onEnd={noteView}
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
  // Halfway between opposite directions there is none: go by the one that is wanted.
  if (eye.length() < 1e-3 || t >= 1) eye.set(...to.eye);
  camera.position.copy(target).addScaledVector(eye.normalize(), EYE_DISTANCE_MM);
  camera.zoom = from.pxPerMm * (to.pxPerMm / from.pxPerMm) ** t;
  camera.updateProjectionMatrix();
  if (controls === null) camera.lookAt(target);
  controls?.target.copy(target);
  controls?.update();
}
