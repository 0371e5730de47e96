import type { Page } from 'playwright-core';
import type { CameraView } from '../../src/app/state/viewStore.ts';

/** The camera of the view, as stored for a reload; undefined before the view is placed. */
export const storedCamera = (page: Page): Promise<CameraView | undefined> =>
  page.evaluate(() => {
    dispatchEvent(new Event('pagehide'));
    return JSON.parse(sessionStorage.getItem('daylight-look') ?? '{}').camera;
  });
