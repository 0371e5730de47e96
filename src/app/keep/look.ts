import { useDocument } from '../stores/documentStore.ts';
import { usePose } from '../stores/poseStore.ts';
import { type CameraView, type Theme, useView } from '../stores/viewStore.ts';
import { orNothing } from './orNothing.ts';

/** How a file was looked at: nothing of it belongs into the file. */
export interface Look {
  fileName: string;
  unit: 'mm' | 'in';
  travelMm: number;
  steer: number;
  camera: CameraView | undefined;
}

const LOOK = 'daylight-look';
const THEME = 'daylight-theme';

/** Takes up the theme of before, and keeps it, and how this tab looks at its file, from now on. */
export function keepLook(): void {
  const theme = orNothing(() => localStorage.getItem(THEME));
  if (theme) useView.setState({ theme: theme as Theme });
  useView.subscribe((view, before) => {
    if (view.theme !== before.theme) orNothing(() => localStorage.setItem(THEME, view.theme));
  });
  addEventListener('pagehide', () => {
    const { unit, camera } = useView.getState();
    const { travelMm, steer } = usePose.getState();
    const look: Look = { fileName: useDocument.getState().fileName, unit, travelMm, steer, camera };
    orNothing(() => sessionStorage.setItem(LOOK, JSON.stringify(look)));
  });
}

/** How this tab looked at a file before it was reloaded; undefined where it had another in hand. */
export function lookAt(fileName: string): Look | undefined {
  const look = orNothing<Look | null>(() => JSON.parse(sessionStorage.getItem(LOOK) ?? 'null'));
  return look?.fileName === fileName ? look : undefined;
}
