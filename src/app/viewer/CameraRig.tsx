import { OrbitControls } from '@react-three/drei';
import { useFrame, useThree } from '@react-three/fiber';
import { useEffect, useRef } from 'react';
import { type OrthographicCamera, Vector3 } from 'three';
import type { OrbitControls as Controls } from 'three-stdlib';
import { shownPoint } from '../../design/side.ts';
import { applyPoint, compose, invert } from '../../math/rigid.ts';
import { add, distance, midpoint, normalize, scale, sub, type Vec3 } from '../../math/vec.ts';
import type { Carriers } from '../../mechanism/pose.ts';
import type { OpenCorner } from '../engine.ts';
import { ownTouches } from '../ownTouches.ts';
import { sectionPlaneNow, useSection } from '../section/sectionStore.ts';
import { useCorner } from '../stores/cornerStore.ts';
import { measuredPair } from '../stores/measuredPair.ts';
import { type Measured, usePose } from '../stores/poseStore.ts';
import { type CameraView, type LookRequest, useView } from '../stores/viewStore.ts';
import { prefersStill } from '../tokens.ts';
import { GLASS } from '../tones.ts';
import { cornerReach, shownSpinAxis } from './cornerReach.ts';
import { frame, lowered } from './frame.ts';
import { squareOnBoth } from './hiddenFrom.ts';
import { eyeDirection, eyeOnCut } from './standpoint.ts';

/** The eye stands this far off: beyond any corner, so that near and far planes can stay tight. */
export const EYE_DISTANCE_MM = 4000;
const TURN_S = 0.35;
/** A pair's dimension is shown with this much round it. */
const PAIR_SURROUNDINGS_MM = 230;
const PAIR_REACH = 7;
/** Zones are shown with as much round them as their own reach. */
const ZONE_REACH = 2;
/** A gap further out than this share of half the picture is brought back to its middle. */
const IN_PICTURE = 0.85;
/** Lower bars over the picture leave enough of it. */
const LOW_BARS_PX = 60;

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
    const { abovePx, belowPx } = covered(gl.domElement);
    const free = { width: size.width, height: Math.max(1, size.height - abovePx - belowPx) };
    const seen = wantedView(look, corner, free);
    if (seen === undefined) return;
    const to =
      look.from === 'kept' ? seen : { eye: seen.eye, ...lowered(seen, seen.eye, (abovePx - belowPx) / 2) };
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

/** How much of the picture is covered by what lies over its upper and its lower edge, px; none where that is low. */
function covered(canvas: HTMLCanvasElement): { abovePx: number; belowPx: number } {
  const viewer = canvas.closest('.viewer');
  const picture = canvas.getBoundingClientRect();
  const head = viewer?.querySelector('.viewer-head')?.getBoundingClientRect();
  const foot = viewer?.querySelector('.viewer-foot')?.getBoundingClientRect();
  const high = (px: number) => (px > LOW_BARS_PX ? px : 0);
  return {
    abovePx: high(head === undefined ? 0 : head.bottom - picture.top),
    belowPx: high(foot === undefined ? 0 : picture.bottom - foot.top),
  };
}

function wantedView(
  { from }: LookRequest,
  corner: OpenCorner,
  { width, height }: { width: number; height: number },
): CameraView | undefined {
  const { drawn } = usePose.getState();
  const { hidden: hiddenIds, pair } = useView.getState();
  if (drawn === undefined || width === 0) return undefined;
  if (from === 'kept') return useView.getState().camera;
  const { side } = corner.design.corner;
  const axis = shownSpinAxis(corner, drawn);
  if (from === 'section') {
    const plane = sectionPlaneNow(corner);
    if (plane === undefined) return undefined;
    const eye = eyeOnCut(shownPoint(side, [plane[2], plane[6], plane[10]]));
    if (useSection.getState().kind !== 'gap')
      return { eye, ...frame(cornerReach(corner, drawn, hiddenIds), eye, width, height, 0.86) };
    const target = shownPoint(side, [plane[3], plane[7], plane[11]]);
    return { eye, target, pxPerMm: Math.min(width, height) / PAIR_SURROUNDINGS_MM };
  }
  if (from !== 'pair') {
    const eye = eyeDirection(from, side, axis);
    return { eye, ...frame(cornerReach(corner, drawn, hiddenIds), eye, width, height, 0.86) };
  }
  const finding = useCorner.getState().swept?.findings.pairs.find((one) => one.pair === pair);
  if (pair === undefined) return undefined;
  const preferred = shownPoint(side, eyeDirection('threeQuarter', side, axis));
  if (finding?.worst === undefined) return viewOfZones(corner, pair, preferred, Math.min(width, height));
  const { worst } = finding;
  const { pose } = corner.poseAt(worst.travelMm, worst.steer);
  if (pose.kind !== 'solved') return undefined;
  const { carrier } = corner.solids[corner.pairs[pair].a];
  // A fit pair is shown wherever the corner stands: its points ride with it.
  const nowFromWorst = compose(drawn[carrier], invert(pose.carriers[carrier]));
  const [a, b] = [worst.pointA, worst.pointB].map((p) => applyPoint(nowFromWorst, p));
  const bodies = [corner.pairs[pair].a, corner.pairs[pair].b].filter(
    (index) => !hiddenIds.has(corner.solids[index].id),
  );
  const { eye, hiding: hides } = squareOnBoth(
    a,
    b,
    preferred,
    bodies.map((index) => {
      const { shown, mesh, carrier } = corner.solids[index];
      return { mesh: shown ?? mesh, vehicleFromMesh: drawn[carrier] };
    }),
  );
  const hiding = bodies.filter((_, k) => hides[k]);
  // Where each is inside the other, the one that is glass anyhow gives way.
  const glass = hiding.filter((index) => GLASS.includes(corner.solids[index].kind));
  useView.setState({ hiding: hiding.length === 2 && glass.length === 1 ? glass : hiding });
  const round = Math.max(PAIR_SURROUNDINGS_MM, PAIR_REACH * distance(a, b)) / 2;
  return {
    eye: shownPoint(side, eye),
    target: shownPoint(side, midpoint(a, b)),
    pxPerMm: Math.min(width, height) / (2 * round),
  };
}

/** Where the zones of a pair are seen from that has nothing else near; undefined without zones. */
function viewOfZones(corner: OpenCorner, index: number, eye: Vec3, sizePx: number): CameraView | undefined {
  const { a, zones } = corner.pairs[index];
  const { drawn } = usePose.getState();
  if (drawn === undefined || zones.length === 0) return undefined;
  const { side } = corner.design.corner;
  const middle = scale(
    zones.reduce<Vec3>((sum, { centre }) => add(sum, centre), [0, 0, 0]),
    1 / zones.length,
  );
  const reachMm = Math.max(...zones.map(({ centre, radiusMm }) => distance(centre, middle) + radiusMm));
  const target = shownPoint(side, applyPoint(drawn[corner.solids[a].carrier], middle));
  const round = Math.max(PAIR_SURROUNDINGS_MM / 2, ZONE_REACH * reachMm);
  return { eye: shownPoint(side, eye), target, pxPerMm: sizePx / (2 * round) };
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
