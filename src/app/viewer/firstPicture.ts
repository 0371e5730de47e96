import { pause } from '../pause.ts';

/** Where no picture comes (a tab in the background, a browser that cannot draw) nobody waits for longer, ms. */
const PATIENCE_MS = 800;

let tell = () => {};
const drawn = new Promise<void>((resolve) => {
  tell = resolve;
});

/** Says that a corner has been drawn. */
export const tellPicture = (): void => tell();

/** Resolves when the first picture of a corner has been drawn, or is not to be waited for any longer. */
export const firstPicture = (): Promise<void> => Promise.race([drawn, pause(PATIENCE_MS)]);
