import { useThree } from '@react-three/fiber';
import { useEffect } from 'react';
import { type OrthographicCamera, Vector3 } from 'three';
import { shownPoint } from '../../design/side.ts';
import type { Vec3 } from '../../math/vec.ts';
import type { OpenCorner } from '../engine.ts';
import { clipPlane } from '../section/clipPlane.ts';
import { usePose } from '../stores/poseStore.ts';
import { useView } from '../stores/viewStore.ts';
import { GLASS } from '../tones.ts';
import type { Pick } from './pick.ts';
import { take, useTape } from './tapeStore.ts';

/** Lines this near to the pointer are meant by it, px. */
const SNAP_PX = 9;
/** A press that moved further turned the view, px. */
const STILL_PX = 3;

/** Offers what the pointer is on, and picks it when it is pressed. */
export default function TapePointer({ corner }: { corner: OpenCorner }) {
  const { gl, camera, invalidate } = useThree();

  useEffect(() => {
    const canvas = gl.domElement;
    const { side } = corner.design.corner;
    const look = async (event: MouseEvent, isPress: boolean): Promise<Pick | undefined> => {
      const { drawn } = usePose.getState();
      if (drawn === undefined) return undefined;
      const { left, top, width, height } = canvas.getBoundingClientRect();
      const [x, y] = [(2 * (event.clientX - left)) / width - 1, 1 - (2 * (event.clientY - top)) / height];
      camera.updateMatrixWorld();
      const near = new Vector3(x, y, -1).unproject(camera);
      const direction = new Vector3(0, 0, -1).transformDirection(camera.matrixWorld);
      const { hidden, seeThrough } = useView.getState();
      const seen = corner.solids.flatMap(({ id }, index) => (hidden.has(id) ? [] : [index]));
      const glass = new Set(seen.filter((i) => seeThrough && GLASS.includes(corner.solids[i].kind)));
      // What a section has cut away is not there to be pointed at.
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
      return useTape.getState().reader?.look({ sight, carriers: drawn, seen, glass, isPress });
    };
    let pressed: { x: number; y: number } | undefined;
    let isOver = false;
    const onMove = (event: PointerEvent) => {
      if (event.buttons !== 0) return;
      isOver = true;
      void look(event, false).then((offered) => {
        // By the time of the answer the pointer may have gone elsewhere, as to the list.
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
      void look(event, true).then((pick) => {
        if (pick !== undefined) take(pick);
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
