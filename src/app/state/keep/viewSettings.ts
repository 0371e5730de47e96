import type { Theme } from '../../kit/tokens.ts';
import { useDocument } from '../documentStore.ts';
import { usePose } from '../poseStore.ts';
import { type CameraView, useView } from '../viewStore.ts';
import { undefinedOnError } from './undefinedOnError.ts';

/** View of a file: unit, pose and camera. Not part of the file. */
export interface SavedView {
  fileName: string;
  unit: 'mm' | 'in';
  travelMm: number;
  steer: number;
  camera: CameraView | undefined;
}

const SAVED_VIEW = 'daylight-look';
const THEME = 'daylight-theme';
const LEFT_PX = 'daylight-left-px';

/** Restores theme and column width. From then on stores them, and the view of this tab's file. */
export function persistViewSettings(): void {
  const theme = undefinedOnError(() => localStorage.getItem(THEME));
  if (theme) useView.setState({ theme: theme as Theme });
  const leftPx = Number(undefinedOnError(() => localStorage.getItem(LEFT_PX)));
  if (leftPx > 0) useView.setState({ leftPx });
  useView.subscribe((view, before) => {
    if (view.theme !== before.theme) undefinedOnError(() => localStorage.setItem(THEME, view.theme));
    if (view.leftPx !== before.leftPx)
      undefinedOnError(() => localStorage.setItem(LEFT_PX, `${view.leftPx ?? 0}`));
  });
  addEventListener('pagehide', () => {
    const { unit, camera } = useView.getState();
    const { travelMm, steer } = usePose.getState();
    const saved: SavedView = { fileName: useDocument.getState().fileName, unit, travelMm, steer, camera };
    undefinedOnError(() => sessionStorage.setItem(SAVED_VIEW, JSON.stringify(saved)));
  });
}

/** View of a file in this tab before a reload; undefined if the tab had another file open. */
export function savedViewOf(fileName: string): SavedView | undefined {
  const saved = undefinedOnError<SavedView | null>(() =>
    JSON.parse(sessionStorage.getItem(SAVED_VIEW) ?? 'null'),
  );
  return saved?.fileName === fileName ? saved : undefined;
}
