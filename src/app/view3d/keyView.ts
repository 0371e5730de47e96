import { screenAxes } from '../../math/screenAxes.ts';
import { addScaled, type Vec3 } from '../../math/vec.ts';
import type { CameraView } from '../state/viewStore.ts';

/** Limits of the scale, px per mm. */
export const LEAST_PX_PER_MM = 0.05;
export const MOST_PX_PER_MM = 60;

const TURN_RAD = (5 * Math.PI) / 180;
const STEP_PX = 40;
const ENLARGE = 1.15;
/** The eye stays this far from straight above and below, rad: there the screen has no up direction. */
const LEAST_FROM_VERTICAL_RAD = 1e-3;

/** Direction of each arrow key on the screen. */
const ARROWS: Readonly<Record<string, readonly [right: number, up: number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};

const KEYS_IN_WORDS = 'Arrow keys orbit, Shift with arrow keys pans, plus and minus zoom';

/**
 * The view after a key press. Arrows orbit the eye, with Shift they pan; plus and minus zoom. Undefined for any other key.
 */
export function viewAfterKey(view: CameraView, key: string, shift: boolean): CameraView | undefined {
  if (key === '+' || key === '=') return enlarged(view, ENLARGE);
  if (key === '-' || key === '_') return enlarged(view, 1 / ENLARGE);
  const arrow = ARROWS[key];
  if (arrow === undefined) return undefined;
  const [toRight, toUp] = arrow;
  if (!shift) return { ...view, eye: turned(view.eye, toRight * TURN_RAD, toUp * TURN_RAD) };
  const { right, up } = screenAxes(view.eye);
  const stepMm = STEP_PX / view.pxPerMm;
  const target = addScaled(addScaled(view.target, right, toRight * stepMm), up, toUp * stepMm);
  return { ...view, target };
}

/** The view enlarged by a factor, within the limits of the scale. */
export const enlarged = (view: CameraView, by: number): CameraView => ({
  ...view,
  pxPerMm: Math.min(MOST_PX_PER_MM, Math.max(LEAST_PX_PER_MM, view.pxPerMm * by)),
});

/** Rotates the direction `eye` (unit) about the vertical, then up or down. Angles in rad. */
function turned(eye: Vec3, aboutVertical: number, upward: number): Vec3 {
  const azimuth = Math.atan2(eye[1], eye[0]) + aboutVertical;
  const steepest = Math.PI / 2 - LEAST_FROM_VERTICAL_RAD;
  const before = Math.atan2(eye[2], Math.hypot(eye[0], eye[1]));
  const elevation = Math.min(steepest, Math.max(-steepest, before + upward));
  const level = Math.cos(elevation);
  return [level * Math.cos(azimuth), level * Math.sin(azimuth), Math.sin(elevation)];
}

/**
 * Makes an element focusable, and changes its view by keys. `viewNow` returns undefined while there is no view. Returns a
 * function that removes the listener.
 */
export function listenForKeys(
  element: HTMLElement,
  viewNow: () => CameraView | undefined,
  show: (view: CameraView) => void,
): () => void {
  element.tabIndex = 0;
  element.setAttribute('role', 'application');
  element.setAttribute('aria-label', 'View of the corner');
  element.setAttribute('aria-description', KEYS_IN_WORDS);
  const onKey = (event: KeyboardEvent) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const view = viewNow();
    const after = view && viewAfterKey(view, event.key, event.shiftKey);
    if (after === undefined) return;
    event.preventDefault();
    show(after);
  };
  element.addEventListener('keydown', onKey);
  return () => element.removeEventListener('keydown', onKey);
}
