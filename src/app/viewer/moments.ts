import { pause } from '../pause.ts';

/** What happens once as the workbench starts. Nobody waits for it for longer than its patience, ms. */
interface Moment {
  tell(): void;
  /** Resolves when it has happened, or is not to be waited for any longer. */
  come(): Promise<void>;
}

function momentOf(patienceMs: number): Moment {
  let tell = () => {};
  const happened = new Promise<void>((resolve) => {
    tell = resolve;
  });
  return { tell, come: () => Promise.race([happened, pause(patienceMs)]) };
}

/** The shaders that parts are drawn with are made. They are not where a browser cannot draw, or its tab is out of sight. */
export const shadersMade = momentOf(800);

/** The panels of a corner stand. */
export const panelsMade = momentOf(800);

/** A corner has been drawn; as with shaders, in some places none is. */
export const firstPicture = momentOf(800);
