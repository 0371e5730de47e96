/** Loaded before anyone asks for a study. */
let waiting: Worker | undefined;

function start(): Worker {
  const made = new Worker(new URL('./fitWorkerEntry.ts', import.meta.url), { type: 'module' });
  // One that could not load is not handed out: the one in its place says why.
  made.addEventListener('error', () => {
    if (waiting === made) waiting = undefined;
  });
  return made;
}

/** Loads the sheet's worker, so that its first picture comes sooner: for when somebody is about to open the sheet. */
export function readyFitWorker(): void {
  waiting ??= start();
}

/** A worker that studies clockings, for the caller to end. */
export function takeFitWorker(): Worker {
  const taken = waiting ?? start();
  waiting = undefined;
  return taken;
}
