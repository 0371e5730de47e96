/** What a page under watch tells of its start. Milliseconds from navigation; undefined until it has happened. */
export interface Watched {
  cornerDrawn?: number;
  mapDrawn?: number;
  sweepDone?: number;
  proofDone?: number;
  longTasks: { at: number; ms: number }[];
  /** Of each press of a key: from the event to the frame in which the rule's words have changed. */
  keysMs: number[];
}

declare global {
  interface Window {
    watched: Watched;
  }
}

/**
 * Runs in the page before its own scripts. Looks from outside, at the calls that draw and at the words that are shown, so
 * that the application need not tell. A picture counts as drawn at the frame after the call.
 */
export function watchPage(): void {
  const watched: Watched = { longTasks: [], keysMs: [] };
  window.watched = watched;
  localStorage.setItem('daylight.cautions-read', 'yes');
  new PerformanceObserver((list) => {
    for (const { startTime, duration } of list.getEntries())
      watched.longTasks.push({ at: startTime, ms: duration });
  }).observe({ type: 'longtask', buffered: true });

  const atNextFrame = (tell: (now: number) => void) =>
    requestAnimationFrame(() => setTimeout(() => tell(performance.now())));
  const once = (moment: 'cornerDrawn' | 'mapDrawn') => {
    let seen = false;
    return () => {
      if (seen) return;
      seen = true;
      atNextFrame((now) => {
        watched[moment] = now;
      });
    };
  };
  const cornerDrawn = once('cornerDrawn');
  const { drawElements } = WebGL2RenderingContext.prototype;
  WebGL2RenderingContext.prototype.drawElements = function (...call) {
    // Every solid of a corner has more corners of triangles than a plane or a helper has.
    if (call[1] > 100) cornerDrawn();
    drawElements.apply(this, call);
  };
  const mapDrawn = once('mapDrawn');
  const { fillRect } = CanvasRenderingContext2D.prototype;
  CanvasRenderingContext2D.prototype.fillRect = function (...call) {
    if (this.canvas.closest('.map-pad') !== null) mapDrawn();
    fillRect.apply(this, call);
  };

  let pressedAt: number | undefined;
  const isRule = (target: Node) =>
    target instanceof Element && target.getAttribute('aria-label') === 'Travel';
  addEventListener(
    'keydown',
    (event) => {
      if (event.target instanceof Node && isRule(event.target)) pressedAt = event.timeStamp;
    },
    { capture: true },
  );
  new MutationObserver((changes) => {
    const status = document.querySelector('[data-testid=sweep-status]');
    if (status?.querySelector('[aria-label="Proof between the steps"]'))
      watched.sweepDone ??= performance.now();
    if (status?.getAttribute('data-progress') === 'done') watched.proofDone ??= performance.now();
    if (pressedAt !== undefined && changes.some(({ target }) => isRule(target))) {
      const from = pressedAt;
      pressedAt = undefined;
      atNextFrame((now) => watched.keysMs.push(now - from));
    }
  }).observe(document, { subtree: true, childList: true, characterData: true, attributes: true });
}
