import { useThree } from '@react-three/fiber';
import { useEffect } from 'react';
import { type OrthographicCamera, Vector3 } from 'three';
import { shownPoint } from '../../../design/side.ts';
import type { Vec3 } from '../../../math/vec.ts';
import type { OpenCorner } from '../../state/engine.ts';
import { isGlass } from '../../state/looks.ts';
import { usePose } from '../../state/poseStore.ts';
import { useView } from '../../state/viewStore.ts';
import { clipPlane } from '../../view3d/clipPlane.ts';
import type { Pick } from '../../workers/tape/pick.ts';
import { addPick, useTape } from './tapeStore.ts';

/** The pointer snaps to lines within this distance, px. */
const SNAP_PX = 9;
/** A press that moves further than this turns the view, px. */
const STILL_PX = 3;

/** Highlights the feature under the pointer and picks it on a click. */
export default function TapePointer({ corner }: { corner: OpenCorner }) {
  const { gl, camera, invalidate } = useThree();

  useEffect(() => {
    const canvas = gl.domElement;
    const { side } = corner.design.corner;
    const pickAt = async (event: MouseEvent, isPress: boolean): Promise<Pick | undefined> => {
      const { drawn } = usePose.getState();
      if (drawn === undefined) return undefined;
      const { left, top, width, height } = canvas.getBoundingClientRect();
      const [x, y] = [(2 * (event.clientX - left)) / width - 1, 1 - (2 * (event.clientY - top)) / height];
      camera.updateMatrixWorld();
      const near = new Vector3(x, y, -1).unproject(camera);
      const direction = new Vector3(0, 0, -1).transformDirection(camera.matrixWorld);
      const { hidden, seeThrough } = useView.getState();
      const visible = corner.solids.flatMap(({ id }, index) => (hidden.has(id) ? [] : [index]));
      const glass = new Set(visible.filter((i) => seeThrough && isGlass(corner.solids[i].kind)));
      // The side that a section has cut away cannot be picked.
      const keptMm = clipPlane.distanceToPoint(near);
      const gained = clipPlane.normal.dot(direction);
      if (keptMm < 0) {
        if (gained <= 0) return undefined;
        near.addScaledVector(direction, -keptMm / gained);
      }
      const sight = {
        origin: shownPoint(side, near.toArray() as Vec3),
        direction: shownPoint(side, direction.toArray() as Vec3),
        reachMm: keptMm >= 0 && gained < 0 ? keptMm / -gained : Number.POSITIVE_INFINITY,
        snapMm: SNAP_PX / (camera as OrthographicCamera).zoom,
        onlyPlaces: useTape.getState().onlyPlaces,
      };
      return useTape.getState().reader?.look({ sight, carriers: drawn, seen: visible, glass, isPress });
    };
    let pressed: { x: number; y: number } | undefined;
    let isOver = false;
    const onMove = (event: PointerEvent) => {
      if (event.buttons !== 0) return;
      isOver = true;
      void pickAt(event, false).then((offered) => {
        // The pointer may have left the canvas meanwhile.
        if (isOver) useTape.setState({ offered });
      });
    };
    const onLeave = () => {
      isOver = false;
      useTape.setState({ offered: undefined });
    };
    const onDown = ({ clientX, clientY }: PointerEvent) => {
      pressed = { x: clientX, y: clientY };
    };
    const onClick = (event: MouseEvent) => {
      const moved = pressed && Math.hypot(event.clientX - pressed.x, event.clientY - pressed.y);
      if (moved === undefined || moved > STILL_PX) return;
      void pickAt(event, true).then((pick) => {
        if (pick !== undefined) addPick(pick);
      });
    };
    canvas.addEventListener('pointermove', onMove);
    canvas.addEventListener('pointerleave', onLeave);
    canvas.addEventListener('pointerdown', onDown);
    canvas.addEventListener('click', onClick);
    return () => {
      canvas.removeEventListener('pointermove', onMove);
      canvas.removeEventListener('pointerleave', onLeave);
      canvas.removeEventListener('pointerdown', onDown);
      canvas.removeEventListener('click', onClick);
    };
  }, [gl, camera, corner]);

  useEffect(() => useTape.subscribe(() => invalidate()), [invalidate]);
  return null;
}
