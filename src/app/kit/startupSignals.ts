import { pause } from './pause.ts';

/** A one-time event of the start-up. */
interface StartupSignal {
  notify(): void;
  /** Resolves once the event has happened, or after the timeout. */
  wait(): Promise<void>;
}

function createSignal(timeoutMs: number): StartupSignal {
  let notify = () => {};
  const notified = new Promise<void>((resolve) => {
    notify = resolve;
  });
  return { notify, wait: () => Promise.race([notified, pause(timeoutMs)]) };
}

/** The shaders of the parts are compiled. Never happens in a browser that cannot draw or in a hidden tab. */
export const shadersReady = createSignal(800);

/** The panels of the first corner are on screen. */
export const panelsShown = createSignal(800);

/** The first frame of a corner is drawn. Never happens in a browser that cannot draw or in a hidden tab. */
export const firstFrameDrawn = createSignal(800);
