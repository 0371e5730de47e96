import { onWorkerDeath } from '../../executors/workerDeath.ts';
import type { Mesh } from '../../solids/solid.ts';
import type { DrawnMesh } from './drawnMesh.ts';

let worker: Worker | undefined;
const waiting: { resolve: (drawn: DrawnMesh) => void; reject: (error: Error) => void }[] = [];

let tellReady = () => {};
const ready = new Promise<void>((resolve) => {
  tellReady = resolve;
});

/**
 * Starts the worker that makes meshes ready to draw, if it does not run. As it starts it has the browser make its graphics
 * ready as well, which would hold up whoever asks for them first; resolves when a canvas can be had without a wait, or
 * when nothing is gained by waiting.
 */
export function graphicsReady(): Promise<void> {
  worker ??= drawingWorker();
  return ready;
}

function drawingWorker(): Worker {
  const made = new Worker(new URL('./drawingWorker.ts', import.meta.url), { type: 'module' });
  made.addEventListener('message', ({ data }: MessageEvent<DrawnMesh | 'graphicsReady'>) => {
    if (data === 'graphicsReady') tellReady();
    else waiting.shift()?.resolve(data);
  });
  onWorkerDeath(made, (why) => {
    worker = undefined;
    tellReady();
    for (const { reject } of waiting.splice(0)) reject(new Error(`the drawing worker died: ${why}`));
  });
  return made;
}

/** A mesh made ready to draw, away from the screen's thread. Rejects with an Error when the worker dies. */
export function drawnMesh(mesh: Mesh): Promise<DrawnMesh> {
  worker ??= drawingWorker();
  worker.postMessage(mesh);
  return new Promise((resolve, reject) => waiting.push({ resolve, reject }));
}
